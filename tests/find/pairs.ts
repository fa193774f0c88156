/**
 * Random pairs of a duct and a barrier, each with its truth in closed form: nothing of the program under test is used.
 * A pair stands about its own origin, turned about Z by `angle`; its barrier lies in the plane of `across` and `up`.
 */
import fc from 'fast-check';
import { sectionFrame } from '../../fixtures/builder/openings.js';
import { MILLIMETRES_PER } from '../../fixtures/ifc-writer.js';
import { add, dot, radians, turn, type Vec3, X, Y, Z } from '../../fixtures/vectors.js';

export interface Sides {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Pair {
  readonly kind: 'wall' | 'slab';
  readonly barrierBody: 'extrusion' | 'mesh' | 'clipped';
  readonly opening: 'none' | 'element' | 'hole' | 'round';
  readonly shape: 'rectangle' | 'circle' | 'oval';
  readonly body: 'extrusion' | 'sideways' | 'hollow' | 'mesh' | 'mapped';
  readonly ports: boolean;
  /** Corners of a round mesh. */
  readonly corners: number;
  readonly thickness: number;
  /** Of a circle the diameter. */
  readonly width: number;
  readonly height: number;
  /** Degrees off the barrier's normal, sideways and upwards; turn of the section about the duct. */
  readonly yaw: number;
  readonly pitch: number;
  readonly roll: number;
  readonly angle: number;
  /** Least clear distance on each side, as the pair's own axes have it. */
  readonly gaps: Sides;
}

export interface FileOptions {
  readonly schema: 'IFC2X3' | 'IFC4' | 'IFC4X3';
  readonly unit: keyof typeof MILLIMETRES_PER;
  readonly rotation: number;
  readonly offset: Vec3;
  readonly movedBy: 'site' | 'elements';
}

const mm = (min: number, max: number) => fc.integer({ min, max });

export const anyFile: fc.Arbitrary<FileOptions> = fc.record({
  schema: fc.constantFrom('IFC2X3', 'IFC4', 'IFC4X3' as const),
  unit: fc.constantFrom(...(Object.keys(MILLIMETRES_PER) as (keyof typeof MILLIMETRES_PER)[])),
  // Half degrees, so that no side faces exactly between two directions.
  rotation: fc.integer({ min: 0, max: 359 }).map((degrees) => degrees + 0.5),
  offset: fc.tuple(mm(-1e6, 5e8), mm(-1e6, 5.8e9), mm(-1e4, 1e5)),
  movedBy: fc.constantFrom('site', 'elements' as const),
});

export const anyPair: fc.Arbitrary<Pair> = fc
  .record({
    kind: fc.constantFrom('wall', 'wall', 'slab' as const),
    barrierBody: fc.constantFrom('extrusion', 'mesh', 'clipped' as const),
    opening: fc.constantFrom('none', 'element', 'element', 'hole', 'round' as const),
    shape: fc.constantFrom('rectangle', 'circle', 'oval' as const),
    body: fc.constantFrom('extrusion', 'sideways', 'hollow', 'mesh', 'mapped' as const),
    ports: fc.boolean(),
    corners: fc.integer({ min: 12, max: 48 }).map((half) => 2 * half),
    thickness: mm(60, 400),
    width: mm(100, 1500),
    height: mm(100, 900),
    yaw: fc.integer({ min: -40, max: 40 }),
    pitch: fc.integer({ min: -40, max: 40 }),
    roll: fc.integer({ min: -30, max: 30 }),
    angle: fc.integer({ min: 0, max: 359 }),
    gaps: fc.record({ left: mm(5, 90), right: mm(5, 90), top: mm(5, 90), bottom: mm(5, 90) }),
  })
  .map(drawable)
  .map(withClosedForm);

/** What the generator can't draw becomes what it can. */
function drawable(p: Pair): Pair {
  const wide = p.shape === 'oval' && p.width < 1.2 * p.height ? { width: p.height, height: p.width } : {};
  const shape = p.opening === 'round' ? 'circle' : p.shape === 'oval' && p.width === p.height ? 'circle' : p.shape;
  const bodies: Readonly<Record<Pair['shape'], readonly Pair['body'][]>> = {
    rectangle: ['extrusion', 'sideways', 'hollow', 'mesh', 'mapped'],
    circle: ['extrusion', 'hollow', 'mesh', 'mapped'],
    oval: ['extrusion', 'mesh', 'mapped'],
  };
  const drawn = { ...p, ...wide, shape, body: bodies[shape].includes(p.body) ? p.body : ('extrusion' as const) };
  // A flat oval that is nearly round is neither.
  return shape === 'oval' ? { ...drawn, width: Math.max(drawn.width, Math.ceil(1.2 * drawn.height)) } : drawn;
}

/** In an opening a rectangular or oval duct slants one way only and has no roll, so that its sides stay parallel to it. */
function withClosedForm(p: Pair): Pair {
  const slab = p.kind === 'slab' ? { yaw: 0 } : {};
  if (p.opening === 'none') return { ...p, ...slab };
  if (p.opening === 'round') return { ...p, yaw: 0, pitch: 0, roll: 0 };
  const oneWay = p.kind === 'slab' || p.roll % 2 === 0 ? { yaw: 0 } : { pitch: 0 };
  // The builder draws holes of slabs along the axes.
  const square = p.kind === 'slab' && p.opening === 'hole' ? { angle: 0 } : {};
  return { ...p, ...(p.shape === 'circle' ? slab : oneWay), ...square, roll: 0 };
}

// -------------------------------------------------------------------------------------------------------------- truth

/** Directions, in the builder's coordinates. */
export interface Axes {
  readonly across: Vec3;
  readonly up: Vec3;
  readonly normal: Vec3;
  readonly along: Vec3;
  /** Roll to give the builder. */
  readonly roll: number;
  /** Along the section's width and height. */
  readonly u: Vec3;
  readonly v: Vec3;
}

export function axesOf(p: Pair): Axes {
  const [y, t] = [radians(p.yaw), radians(p.pitch)];
  const wall = p.kind === 'wall';
  const local: Vec3 = wall
    ? [Math.sin(y) * Math.cos(t), Math.cos(y) * Math.cos(t), Math.sin(t)]
    : [0, Math.sin(t), Math.cos(t)];
  const roll = p.roll + (!wall && p.pitch === 0 ? p.angle : 0);
  const { x: u, y: v, z: along } = sectionFrame([0, 0, 0], turn(local, p.angle), roll);
  const turned = (e: Vec3) => turn(e, p.angle);
  return { across: turned(X), up: turned(wall ? Z : Y), normal: turned(wall ? Y : Z), along, roll, u, v };
}

/** How the duct's outline lies on planes parallel to the faces, along one direction of them. */
export function shadow(p: Pair, { along, normal, u, v }: Axes, e: Vec3): { half: number; drift: number } {
  const slant = dot(along, e) / dot(along, normal);
  // The point u·x + v·y of the section, carried along the duct to the plane.
  const [a, b] = [u, v].map((side) => dot(side, e) - slant * dot(side, normal)) as [number, number];
  const { width, height, shape } = p;
  const half = {
    rectangle: (width * Math.abs(a) + height * Math.abs(b)) / 2,
    circle: (width / 2) * Math.hypot(a, b),
    oval: ((width - height) / 2) * Math.abs(a) + (height / 2) * Math.hypot(a, b),
  }[shape];
  return { half, drift: Math.abs(slant) * (p.thickness / 2) };
}

/** Of a round opening: its radius less the duct's, and how far off its middle the duct is. */
export const roundGap = ({ gaps }: Pair): { clear: number; off: number } => ({
  clear: Math.max(gaps.left, gaps.right),
  off: Math.abs(gaps.left - gaps.right) / 2,
});

export interface PairTruth {
  readonly position: Vec3;
  readonly skew: number;
  readonly section:
    | { readonly shape: 'rectangular' | 'oval'; readonly width: number; readonly height: number }
    | { readonly shape: 'circular'; readonly diameter: number };
  /** Square to the duct, mm²; with the air space of hollow ones. */
  readonly sectionArea: number;
  readonly openingFrom: 'element' | 'hole' | null;
  readonly sides: Sides | undefined;
  readonly min: number | null;
  /** Where it has a closed form. */
  readonly max: number | undefined;
  /** Largest distance between the chords of a mesh and the true outline. */
  readonly chordError: number;
}

/** @param origin of the pair, in the builder's coordinates. */
export function truthOf(p: Pair, origin: Vec3, file: Pick<FileOptions, 'rotation' | 'offset'>): PairTruth {
  const axes = axesOf(p);
  const radius = p.shape === 'circle' ? p.width / 2 : p.height / 2;
  return {
    position: add(turn(origin, file.rotation), file.offset),
    skew: (Math.acos(Math.min(1, Math.abs(dot(axes.along, axes.normal)))) * 180) / Math.PI,
    section: sectionSeen(p, axes, file.rotation),
    sectionArea: {
      rectangle: p.width * p.height,
      circle: (Math.PI / 4) * p.width ** 2,
      oval: (p.width - p.height) * p.height + (Math.PI / 4) * p.height ** 2,
    }[p.shape],
    openingFrom: p.opening === 'none' ? null : p.opening === 'hole' ? 'hole' : 'element',
    ...gapsSeen(p, axes, file.rotation),
    chordError: p.body === 'mesh' && p.shape !== 'rectangle' ? radius * (1 - Math.cos(Math.PI / p.corners)) : 0,
  };
}

/** Width is the size most nearly along what is right: horizontal on a wall, +X on the plan. */
function sectionSeen(p: Pair, { across, u, v }: Axes, rotation: number): PairTruth['section'] {
  if (p.shape === 'circle') return { shape: 'circular', diameter: p.width };
  const right = p.kind === 'wall' ? across : turn(X, -rotation);
  const asDrawn = Math.abs(dot(u, right)) >= Math.abs(dot(v, right));
  const [width, height] = asDrawn ? [p.width, p.height] : [p.height, p.width];
  return { shape: p.shape === 'oval' ? 'oval' : 'rectangular', width, height };
}

function gapsSeen(p: Pair, axes: Axes, rotation: number): Pick<PairTruth, 'sides' | 'min' | 'max'> {
  if (p.opening === 'none') return { sides: undefined, min: null, max: undefined };
  if (p.opening === 'round') {
    const { clear, off } = roundGap(p);
    return { sides: undefined, min: clear - off, max: clear + off };
  }
  const { left, right, top, bottom } = p.gaps;
  const [sideways, upwards] = [axes.across, axes.up].map((e) => 2 * shadow(p, axes, e).drift) as [number, number];
  const widest = Math.max(left + sideways, right + sideways, top + upwards, bottom + upwards);
  return {
    sides: sidesSeen(p, rotation),
    min: Math.min(left, right, top, bottom),
    // The widest place between a round duct and a rectangle lies somewhere towards a corner.
    max: p.shape === 'rectangle' ? widest : undefined,
  };
}

/** Seen along the normal with the larger positive component; a floor is seen from above. */
function sidesSeen({ kind, gaps, angle }: Pair, rotation: number): Sides {
  const { left, right, top, bottom } = gaps;
  const total = angle + rotation;
  if (kind === 'wall') {
    const [x, y] = turn(Y, total);
    return (Math.abs(x) >= Math.abs(y) ? x : y) > 0 ? gaps : { left: right, right: left, top, bottom };
  }
  // Right, top, left and bottom face 0, 90, 180 and 270 degrees; a quarter turn carries each to the next.
  const quarters = Math.round(total / 90);
  const seen = (k: number) => [right, top, left, bottom][(((k - quarters) % 4) + 4) % 4]!;
  return { right: seen(0), top: seen(1), left: seen(2), bottom: seen(3) };
}
