/** Draws random pairs into one IFC file, far enough apart that none meets another. */
import { ModelBuilder, type StraightSpec } from '../../fixtures/model-builder.js';
import { add, along, scale, turn, type Vec2, type Vec3 } from '../../fixtures/vectors.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { type Axes, axesOf, type FileOptions, type Pair, roundGap, shadow } from './pairs.js';

const SPACING = 16_000;
/** Of the duct, either way from the middle of the barrier. */
const REACH = 3000;
const BARRIER = 6000;

export const originOf = (i: number): Vec3 => [(i % 10) * SPACING, Math.floor(i / 10) * SPACING, 0];
export const ductName = (i: number): string => `Duct ${i}`;
export const barrierName = (i: number): string => `Barrier ${i}`;

export function drawPairs(pairs: readonly Pair[], file: FileOptions, name = 'pairs.ifc'): ModelInput {
  const b = new ModelBuilder({ fileName: name, ...file });
  for (const [i, pair] of pairs.entries()) drawPair(b, pair, i);
  return { name, bytes: new TextEncoder().encode(b.toString()) };
}

export function drawPair(b: ModelBuilder, p: Pair, i: number): void {
  const axes = axesOf(p);
  const origin = originOf(i);
  const { across, up } = axes;
  const [a, c] = [shadow(p, axes, across), shadow(p, axes, up)];
  const { left, right, top, bottom } = p.gaps;
  // Edges of the opening about the origin: the outline at its outermost on either face, and the gap.
  const [low, high] = [-a.half - a.drift - left, a.half + a.drift + right];
  const [down, over] = [-c.half - c.drift - bottom, c.half + c.drift + top];
  const middle = along(along(origin, across, (low + high) / 2), up, (down + over) / 2);
  const size = { width: high - low, height: over - down };
  const barrier = drawBarrier(b, p, i, origin, p.opening === 'hole' ? { centre: middle, ...size } : undefined);
  const roll = p.kind === 'slab' ? p.angle : 0;
  if (p.opening === 'element') b.opening(barrier, { centre: middle, ...size, roll });
  if (p.opening === 'round') {
    const { clear, off } = roundGap(p);
    b.opening(barrier, { centre: along(origin, across, off), diameter: p.width + 2 * clear });
  }
  b.duct(ductSpec(p, i, origin, axes));
}

function ductSpec(p: Pair, i: number, origin: Vec3, { along: d, roll }: Axes): StraightSpec {
  const { width, height, shape, body, ports, corners: sides } = p;
  const size = shape === 'circle' ? { diameter: width } : { width, height, oval: shape === 'oval' };
  const ends = { from: add(origin, scale(d, -REACH)), to: add(origin, scale(d, REACH)) };
  return { name: ductName(i), ...size, ...ends, roll, body, ports, sides };
}

type Hole = { readonly centre: Vec3; readonly width: number; readonly height: number };

function drawBarrier(b: ModelBuilder, p: Pair, i: number, origin: Vec3, hole: Hole | undefined) {
  const corner = (x: number, y: number): Vec2 => {
    const [u, v] = add(origin, turn([x, y, 0], p.angle));
    return [u, v];
  };
  const half = BARRIER / 2;
  const holed = p.barrierBody === 'mesh' ? ('holeInMesh' as const) : ('holeInProfile' as const);
  const shared = {
    name: barrierName(i),
    thickness: p.thickness,
    rating: '-/60/60',
    ...(hole ? { body: holed, hole } : { body: p.barrierBody }),
  };
  return p.kind === 'wall'
    ? b.wall({ ...shared, from: corner(-half, 0), to: corner(half, 0), height: BARRIER, base: -half })
    : b.slab({
        ...shared,
        outline: [corner(-half, -half), corner(half, -half), corner(half, half), corner(-half, half)],
        top: p.thickness / 2,
      });
}
