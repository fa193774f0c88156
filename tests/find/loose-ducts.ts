/**
 * Ducts thrown at random near walls and slabs: through them, into them, over their edges, past them. No closed form says
 * what each does; the judge of tests/reference does.
 */
import fc from 'fast-check';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { add, along, radians, type Vec2, type Vec3 } from '../../fixtures/vectors.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { barrierName, ductName, originOf } from './draw-pairs.js';

export interface LooseDuct {
  readonly kind: 'wall' | 'slab';
  readonly thickness: number;
  readonly middle: Vec3;
  /** Degrees: of the direction on plan, and above it. */
  readonly bearing: number;
  readonly rise: number;
  readonly length: number;
  readonly round: boolean;
  readonly width: number;
  readonly height: number;
}

const mm = (min: number, max: number) => fc.integer({ min, max });
/** Half the width and height of each barrier. */
export const HALF = 1500;

export const anyLooseDuct: fc.Arbitrary<LooseDuct> = fc.record({
  kind: fc.constantFrom('wall', 'slab' as const),
  thickness: mm(80, 400),
  middle: fc.tuple(mm(-1800, 1800), mm(-1800, 1800), mm(-1800, 1800)),
  bearing: fc.integer({ min: 0, max: 359 }),
  rise: fc.integer({ min: -89, max: 89 }),
  length: mm(1200, 4000),
  round: fc.boolean(),
  width: mm(100, 800),
  height: mm(100, 800),
});

export function directionOf({ bearing, rise }: Pick<LooseDuct, 'bearing' | 'rise'>): Vec3 {
  const [t, r] = [radians(bearing), radians(rise)];
  return [Math.cos(t) * Math.cos(r), Math.sin(t) * Math.cos(r), Math.sin(r)];
}

export function drawLoose(ducts: readonly LooseDuct[], name: string): ModelInput {
  const b = new ModelBuilder({ fileName: name });
  for (const [i, duct] of ducts.entries()) {
    const origin = originOf(i);
    const corner = (x: number, y: number): Vec2 => [origin[0] + x, origin[1] + y];
    const barrier = { name: barrierName(i), thickness: duct.thickness, rating: '-/60/60' };
    if (duct.kind === 'wall')
      b.wall({ ...barrier, from: corner(-HALF, 0), to: corner(HALF, 0), height: 2 * HALF, base: -HALF });
    else
      b.slab({
        ...barrier,
        outline: [corner(-HALF, -HALF), corner(HALF, -HALF), corner(HALF, HALF), corner(-HALF, HALF)],
        top: duct.thickness / 2,
      });
    const d = directionOf(duct);
    const middle = add(origin, duct.middle);
    const ends = { from: along(middle, d, -duct.length / 2), to: along(middle, d, duct.length / 2) };
    const size = duct.round ? { diameter: duct.width } : { width: duct.width, height: duct.height };
    // Ports say which way a short box goes.
    b.duct({ name: ductName(i), ...ends, ...size, ports: true });
  }
  return { name, bytes: new TextEncoder().encode(b.toString()) };
}
