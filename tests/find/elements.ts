/** Elements made by hand, for tests of one function; each takes what a test is about, the rest is plain. */
import { WORLD } from '../../src/geometry/frame.js';
import { loft } from '../../src/geometry/loft.js';
import { rectangle } from '../../src/geometry/polygon.js';
import type { AirElement, Barrier, Federation, Mesh, Polygon, Prism, Vec2, Vec3 } from '../../src/model.js';
import { rating } from '../model-factories.js';

/** A rectangle on plan, from corner to corner. */
export const between = ([x0, y0]: Vec2, [x1, y1]: Vec2): Polygon => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** On plan, its two legs of 4 m one metre wide. */
export const ROUND_A_CORNER: Polygon = [
  [0, 0],
  [4000, 0],
  [4000, 1000],
  [1000, 1000],
  [1000, 4000],
  [0, 4000],
];

/** Upright, from one height to another. */
export const upright = (outline: Polygon, from: number, to: number): Prism => ({
  ...{ kind: 'prism', frame: { ...WORLD, origin: [0, 0, from] }, outline, voids: [], sweep: [0, 0, to - from] },
});

/** A level piece along y: its section's middle at x = 0, 1500 high unless another place is given. */
export const along = (outline: Polygon, from: number, to: number, [x, z]: Vec2 = [0, 1500]): Prism => ({
  ...{ kind: 'prism', frame: { origin: [x, from, z], x: [0, 0, 1], y: [1, 0, 0], z: [0, 1, 0] }, outline },
  ...{ voids: [], sweep: [0, to - from, 0] },
});

/** What tapers along y, from one width and height to another: a transition, which is no straight piece. */
export function taper(from: number, to: number, first: Vec2, last: Vec2, [x, z]: Vec2 = [0, 1500]): Mesh {
  const ring = (y: number, [width, height]: Vec2) => {
    const outline = rectangle(height, width).map(([up, right]): Vec3 => [x + right, y, z + up]);
    return { outline, voids: [] };
  };
  const profile = { outline: rectangle(last[1], last[0]), voids: [] };
  return loft(profile, [ring(from, first), ring(to, last)]);
}

export const aBarrier = (changes: Partial<Barrier> = {}): Barrier => ({
  ...{ model: 'm1', globalId: 'W', name: 'W', entity: 'IFCWALL', storey: undefined, bodies: [], kind: 'wall' },
  ...{ openings: [], rating: rating(), compartmentation: undefined, layers: [], construction: 'concrete' },
  ...{ extendToStructure: undefined, drawing: undefined, ...changes },
});

export const aDuct = (changes: Partial<AirElement> = {}): AirElement => ({
  ...{ model: 'm1', globalId: 'D', name: 'D', entity: 'IFCDUCTSEGMENT', storey: undefined, bodies: [] },
  ...{ kind: 'segment', evidence: 'IfcDuctSegment', ports: [], system: 'SA', systemType: undefined },
  ...{ material: 'steel', stated: {}, damper: undefined, ...changes },
});

export const federationOf = (changes: Partial<Federation> = {}): Federation => ({
  ...{ origin: [0, 0, 0], frame: 'engineering', models: [], airElements: [], otherServices: [] },
  ...{ barriers: [], columns: [], ...changes },
});
