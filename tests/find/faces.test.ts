/**
 * What stands before the faces of a barrier, held to closed forms: boxes and pipes beside rectangular and round ducts, in
 * walls at any angle and in floors, square and oblique. In the coordinates of a face: x and y in it, z the depth before it.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearWidth } from '../../src/clear-width.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import { add, cross, scale, unit, X, Y, Z } from '../../src/geometry/vector.js';
import type {
  AirElement,
  Barrier,
  Body,
  FaceObstacle,
  Federation,
  OtherService,
  Polygon,
  Vec3,
} from '../../src/model.js';
import { rating } from '../model-factories.js';

const THICKNESS = 128;
const within = (mm: number) => (expected: number) => ({
  asymmetricMatch: (m: unknown) => typeof m === 'number' && Math.abs(m - expected) <= mm,
  toString: () => `within ${mm} of ${expected}`,
});
const exactly = within(0.3);

/** A place in the building: x to the right and y up for who looks along z, the normal. */
interface Site {
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}
const wallAt = (degrees: number): Site => {
  const angle = (degrees * Math.PI) / 180;
  const z: Vec3 = [Math.sin(angle), Math.cos(angle), 0];
  return { x: cross(z, Z), y: Z, z };
};
/** Normals of walls are drawn with their larger horizontal part positive, those of floors down. */
const site = fc.oneof(
  fc.integer({ min: -44, max: 44 }).map(wallAt),
  fc.constant<Site>({ x: X, y: Y, z: scale(Z, -1) }),
);

const at = ({ x, y, z }: Site, [u, v, s]: Vec3): Vec3 => add(scale(x, u), add(scale(y, v), scale(z, s)));
const prism = (outline: Polygon, origin: Vec3, x: Vec3, y: Vec3, sweep: Vec3): Body => ({
  kind: 'prism',
  frame: { origin, x, y, z: cross(x, y) },
  outline,
  voids: [],
  sweep,
});
/** Coordinates of the site about the middle of the barrier. */
const box = (place: Site, [x0, y0, z0]: Vec3, [x1, y1, z1]: Vec3): Body =>
  prism(
    rectangle(x1 - x0, y1 - y0),
    at(place, [(x0 + x1) / 2, (y0 + y1) / 2, z0]),
    place.x,
    place.y,
    scale(place.z, z1 - z0),
  );

const element = (globalId: string, entity: string, bodies: readonly Body[]) => ({
  ...{ model: 'm1', globalId, name: globalId, entity, storey: undefined, bodies },
});
function facesIn(place: Site, ductBody: Body, obstacles: readonly Body[]) {
  const barrier: Barrier = {
    ...element('wall', 'IFCWALL', [box(place, [-3000, -3000, -THICKNESS / 2], [3000, 3000, THICKNESS / 2])]),
    ...{ kind: Math.abs(place.z[2]) > 0.5 ? 'floor' : 'wall', openings: [], rating: rating(), compartmentation: true },
    ...{ layers: [], construction: 'concrete', extendToStructure: undefined, drawing: undefined },
  };
  const duct: AirElement = {
    ...element('duct', 'IFCDUCTSEGMENT', [ductBody]),
    ...{ kind: 'segment', evidence: 'IfcDuctSegment', ports: [], system: 'SA', systemType: undefined },
    ...{ material: 'steel', stated: {}, damper: undefined },
  };
  const pipes = obstacles.map(
    (body, i): OtherService => ({ ...element(`pipe ${i}`, 'IFCPIPESEGMENT', [body]), kind: 'pipe' }),
  );
  const federation: Federation = {
    ...{ origin: [0, 0, 0], frame: 'engineering', models: [], airElements: [duct], otherServices: pipes },
    ...{ barriers: [barrier], columns: [] },
  };
  const [penetration] = findPenetrations(federation).penetrations;
  return penetration!.faces.map((face) => face!.obstacles);
}

interface DuctSize {
  readonly width: number;
  readonly height: number;
  readonly isRound: boolean;
}
const size = fc.record({
  width: fc.integer({ min: 150, max: 1200 }),
  height: fc.integer({ min: 100, max: 800 }),
  isRound: fc.boolean(),
});
const square = (place: Site, { width, height, isRound }: DuctSize): Body => {
  const outline = isRound ? circle(width) : rectangle(width, height);
  return prism(outline, at(place, [0, 0, -2000]), place.x, place.y, scale(place.z, 4000));
};
/** From the outline out to a point off its corner, both positive. */
const ringTo = ({ width, height, isRound }: DuctSize, x: number, y: number): number =>
  isRound ? Math.hypot(x, y) - width / 2 : Math.max(x - width / 2, y - height / 2);

const depthAt = (sign: 1 | -1, depth: number) => sign * (THICKNESS / 2 + depth);
const sign = fc.constantFrom<1 | -1>(1, -1);
const clearAt = (obstacles: readonly FaceObstacle[] | undefined, depth: number) =>
  clearWidth(obstacles?.[0]?.clear ?? [], depth);

describe('room before the faces', () => {
  it('is exact beside boxes that lie square, also as meshes', () => {
    fc.assert(
      fc.property(
        fc.record({
          ...{ site, size, sign, isMesh: fc.boolean() },
          off: fc.tuple(fc.integer({ min: -100, max: 480 }), fc.integer({ min: -100, max: 480 })),
          depth: fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 20, max: 1500 })),
        }),
        ({ site: place, size: duct, sign: face, isMesh, off, depth: [from, length] }) => {
          const [x, y] = [duct.width / 2 + off[0], (duct.isRound ? duct.width : duct.height) / 2 + off[1]];
          const [z0, z1] = [depthAt(face, from), depthAt(face, from + length)];
          const body = box(place, [x, y, Math.min(z0, z1)], [x + 300, y + 300, Math.max(z0, z1)]);
          const mesh = body.kind === 'prism' && isMesh ? prismMesh(body) : body;
          const found = facesIn(place, square(place, duct), [mesh]);
          const [here, there] = face > 0 ? [found[1], found[0]] : [found[0], found[1]];
          const expected = Math.max(0, ringTo(duct, Math.max(0, x), Math.max(0, y)));
          expect(there).toEqual([]);
          if (expected > 500.5) expect(here).toEqual([]);
          if (expected > 499.5) return;
          expect(here?.map((one) => one.distance)).toEqual([exactly(expected)]);
          expect(here![0]!.clear[0]).toEqual([exactly(from), exactly(expected)]);
          expect(clearAt(here, from + 5)).toEqual(exactly(expected));
          if (from > 5) expect(clearAt(here, from - 1)).toBeUndefined();
        },
      ),
      { numRuns: 150, seed: 71 },
    );
  });

  it('is exact beside pipes along the duct, where a corner may come nearest', () => {
    fc.assert(
      fc.property(
        fc.record({
          ...{ site, size },
          off: fc.tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 })),
          radius: fc.integer({ min: 15, max: 150 }),
        }),
        ({ site: place, size: duct, off, radius }) => {
          const height = duct.isRound ? duct.width : duct.height;
          const [x, y] = [duct.width / 2 + radius + off[0], height / 2 + radius + off[1]];
          const pipe = prism(circle(2 * radius), at(place, [-x, y, 100]), place.x, place.y, scale(place.z, 700));
          const [a, b] = [x - duct.width / 2, y - duct.height / 2];
          const corner = (a + b - Math.sqrt(2 * radius ** 2 - (a - b) ** 2)) / 2;
          const beside = Math.abs(a - b) >= radius ? Math.max(a, b) - radius : corner;
          const expected = duct.isRound ? Math.hypot(x, y) - duct.width / 2 - radius : beside;
          const found = facesIn(place, square(place, duct), [pipe])[1];
          if (expected < 499) expect(found?.map((one) => one.distance)).toEqual([exactly(expected)]);
        },
      ),
      { numRuns: 100, seed: 72 },
    );
  });

  it('follows a pipe that crosses before the face with the depth', () => {
    fc.assert(
      fc.property(
        fc.record({
          ...{ site, size, sign },
          off: fc.integer({ min: 5, max: 250 }),
          radius: fc.integer({ min: 15, max: 150 }),
          over: fc.integer({ min: 1, max: 500 }),
          share: fc.double({ min: 0.02, max: 1.5, noNaN: true }),
        }),
        ({ site: place, size: duct, sign: face, off, radius, over, share }) => {
          const middle = over + radius;
          const x = duct.width / 2 + off + radius;
          const from = at(place, [x, -1500, depthAt(face, middle)]);
          const pipe = prism(circle(2 * radius), from, place.x, place.z, scale(place.y, 3000));
          const found = facesIn(place, square(place, duct), [pipe])[face > 0 ? 1 : 0];
          expect(found?.map((one) => one.distance)).toEqual([exactly(off)]);
          const depth = over + share * radius;
          const reached = Math.min(0, share - 1) * radius;
          const side = x - Math.sqrt(radius ** 2 - reached ** 2) - duct.width / 2;
          // Where a pipe begins it recedes steeply: a tenth of depth is more of width.
          const steep = 0.1 * Math.abs(reached / Math.sqrt(radius ** 2 - reached ** 2));
          if (side < 495) expect(clearAt(found, depth)).toEqual(within(0.4 + steep)(side));
        },
      ),
      { numRuns: 100, seed: 73 },
    );
  });

  it('goes with a duct that crosses obliquely, in the plane of the barrier', () => {
    fc.assert(
      fc.property(
        fc.record({
          site,
          skew: fc.integer({ min: -50, max: 50 }),
          width: fc.integer({ min: 150, max: 900 }),
          off: fc.integer({ min: 0, max: 400 }),
          length: fc.integer({ min: 20, max: 900 }),
          depth: fc.integer({ min: 5, max: 900 }),
        }),
        ({ site: place, skew, width, off, length, depth }) => {
          const angle = (skew * Math.PI) / 180;
          const way = unit(add(scale(place.z, Math.cos(angle)), scale(place.x, Math.sin(angle))));
          const duct = prism(rectangle(300, width), scale(way, -3000), place.y, cross(way, place.y), scale(way, 6000));
          const half = width / 2 / Math.cos(angle);
          const lean = Math.tan(angle);
          const face = half + (THICKNESS / 2) * lean;
          const block = box(place, [face + off, -500, depthAt(1, 0)], [face + off + 400, 500, depthAt(1, length)]);
          const found = facesIn(place, duct, [block])[1];
          const atDepth = (d: number) => Math.max(0, off - Math.max(0, Math.min(d, length) * lean));
          // A slanted ring meets it head on, where that is nearer than from the side.
          if (atDepth(length) < 499) expect(found?.[0]?.distance).toEqual(exactly(atDepth(1000)));
          if (off < 495) expect(clearAt(found, depth)).toEqual(within(0.5)(atDepth(depth)));
        },
      ),
      { numRuns: 100, seed: 74 },
    );
  });

  it('names the side, leaves out what another thing is always before, and tells what stands in line', () => {
    const place = wallAt(0);
    const duct = square(place, { width: 600, height: 400, isRound: false });
    const blocks = [
      box(place, [350, -100, 64], [450, 100, 1000]),
      box(place, [480, -100, 64], [520, 100, 1000]),
      box(place, [400, -100, 364], [450, 100, 1000]),
      box(place, [-100, 230, 264], [100, 300, 1000]),
      box(place, [-100, -100, 764], [100, 100, 800]),
    ];
    const [, behind] = facesIn(place, duct, blocks);
    const told = behind!.map(({ globalId, side, distance, clear }) => [globalId, side, distance, clear[0]![0]]);
    expect(told).toEqual([
      ['pipe 0', 'right', 50, 0],
      ['pipe 3', 'top', 30, exactly(200)],
      ['pipe 4', null, 0, exactly(700)],
    ]);
  });
});
