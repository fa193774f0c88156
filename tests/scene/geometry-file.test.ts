/** geometry.glb against closed-form places, read by a general glTF library and by the viewer's own reader. */
import { type Document, type Node, WebIO } from '@gltf-transform/core';
import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { add, scale } from '../../src/geometry/vector.js';
import type { Change, Federation, Vec3 } from '../../src/model.js';
import type { Report } from '../../src/report/schema.js';
import { writeGeometry } from '../../src/report/write-geometry.js';
import { readGeometry } from '../../viewer/model/geometry.js';
import { review, reviewOneWall } from '../one-wall.js';

const read = async (federation: Federation, report: Report) => {
  const bytes = writeGeometry(federation, report);
  const viewer = readGeometry(bytes.slice().buffer);
  return { viewer, document: await new WebIO().readBinary(bytes) };
};

const named = (document: Document, name: string): Node =>
  document
    .getRoot()
    .listNodes()
    .find((node) => node.getName() === name)!;

/** Corners of its box in metres, Z up: what is drawn times the matrices over it, turned back from Y up. */
function boxOf(node: Node): readonly [Vec3, Vec3] {
  const m = node.getWorldMatrix();
  const position = node.getMesh()!.listPrimitives()[0]!.getAttribute('POSITION')!;
  const points = Array.from({ length: position.getCount() }, (_, i): Vec3 => {
    const [x = NaN, y = NaN, z = NaN] = position.getElement(i, []);
    const row = (r: number): number => m[r]! * x + m[r + 4]! * y + m[r + 8]! * z + m[r + 12]!;
    return [row(0), -row(2), row(1)];
  });
  const on = (i: 0 | 1 | 2) => points.map((p) => p[i]);
  return [
    [Math.min(...on(0)), Math.min(...on(1)), Math.min(...on(2))],
    [Math.max(...on(0)), Math.max(...on(1)), Math.max(...on(2))],
  ];
}

const expectNear = (got: Vec3, wanted: Vec3, within: number): void => {
  for (const i of [0, 1, 2] as const) expect(Math.abs(got[i] - wanted[i])).toBeLessThanOrEqual(within);
};

/** float32 has 24 bits: half of its last place is 0.008 mm up to 131 m from the file's origin, 0.004 mm up to 65 m. */
const FLOAT32_MM = 0.004;

describe('places in geometry.glb', () => {
  it('times the matrix of the root are metres of the world, Y up, once the origin is added', async () => {
    const { federation, report } = await reviewOneWall();
    const { document, viewer } = await read(federation, report);
    expect(viewer.origin).toEqual(federation.origin);
    const [min, max] = boxOf(named(document, DUCT.name));
    const world = (p: Vec3): Vec3 => add(scale(p, 1000), federation.origin);
    expectNear(world(min), [2700, -2500, 1800], FLOAT32_MM);
    expectNear(world(max), [3300, 2500, 2200], FLOAT32_MM);
    const duct = viewer.elements.find(({ extras }) => extras.kind === 'duct')!;
    expect(Math.max(...duct.positions.filter((_, i) => i % 3 === 2)) + viewer.origin[2]).toBeCloseTo(2200, 2);
  });

  it('uses 16 bits for indices, in buffers of their own', async () => {
    const { federation, report } = await reviewOneWall();
    const { viewer } = await read(federation, report);
    for (const { triangles } of viewer.elements) expect(triangles).toBeInstanceOf(Uint16Array);
  });
});

describe('a barrier as a setting-out drawing shows it', () => {
  it('has its outline, its opening, and a duct where it is measured', async () => {
    const { federation, report } = await reviewOneWall();
    const { viewer } = await read(federation, report);
    const [face] = viewer.faces.values();
    const { origin, right, up, outline, openings, services } = face!;
    const [{ position, frame } = { position: null, frame: null }] = report.penetrations;
    expect({ right, up, origin, normal: face!.normal }).toEqual({ ...frame, origin: position });
    const inWorld = (p: readonly [number, number]): Vec3 => add(origin, add(scale(right, p[0]), scale(up, p[1])));
    const box = (points: readonly Vec3[]) =>
      [0, 2].map((i) => [Math.min(...points.map((p) => p[i]!)), Math.max(...points.map((p) => p[i]!))]);
    expect(outline).toHaveLength(1);
    expect(box(outline[0]!.map(inWorld))).toEqual([
      [0, WALL.to[0]],
      [0, WALL.height],
    ]);
    const [x, , z] = OPENING.centre;
    expect(openings.map((one) => box(one.map(inWorld)))).toEqual([
      [
        [x - OPENING.width / 2, x + OPENING.width / 2],
        [z - OPENING.height / 2, z + OPENING.height / 2],
      ],
    ]);
    expect(services).toEqual([]);
  });

  it('shows pipes that pass it, openings without a duct, and nothing of what ends before it', async () => {
    const { federation, report } = await reviewOneWall({}, (b) => {
      b.pipe({ name: 'Pipe', from: [1000, -500, 1000], to: [1000, 500, 1000], width: 100, height: 100 });
      b.pipe({ name: 'Short', from: [1500, -500, 1000], to: [1500, -100, 1000], width: 100, height: 100 });
    });
    const { viewer } = await read(federation, report);
    const [face] = viewer.faces.values();
    expect(face!.services).toHaveLength(1);
    const right = face!.services[0]!.map(([u]) => u * face!.right[0] + face!.origin[0]);
    expect([Math.min(...right), Math.max(...right)]).toEqual([950, 1050]);
  });
});

describe('a barrier that does not lie in one plane', () => {
  const passedBy = async (build: (b: ModelBuilder) => void) => {
    const b = new ModelBuilder({ fileName: 'walls.ifc' });
    build(b);
    const { federation, report } = await review([{ name: 'walls.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
    const { viewer } = await read(federation, report);
    return { report, faces: [...viewer.faces.values()] };
  };
  const width = (outline: readonly (readonly [number, number])[]): number =>
    Math.max(...outline.map(([u]) => u)) - Math.min(...outline.map(([u]) => u));

  it('curved, shows its whole silhouette', async () => {
    // A quarter turn about (3000, -6000) of 6 m to the middle: as wide as the chord of its outer face.
    const { faces } = await passedBy((b) => {
      const wall = { centre: [3000, -6000] as const, radius: 6000, thickness: 128, from: 45, to: 135, height: 3000 };
      b.opening(b.curvedWall({ ...wall, name: 'Bow', rating: '-/120/120' }), OPENING);
      b.duct(DUCT);
    });
    expect(faces).toHaveLength(1);
    expect(faces[0]!.outline).toHaveLength(1);
    expect(Math.abs(width(faces[0]!.outline[0]!) - 2 * 6064 * Math.SQRT1_2)).toBeLessThan(0.2);
    expect(faces[0]!.openings.map(width)).toEqual([expect.closeTo(OPENING.width, 0)]);
  });

  it('of two leaves, shows both laid over each other', async () => {
    const { faces, report } = await passedBy((b) => {
      b.opening(b.wall(WALL), OPENING);
      b.opening(b.wall({ ...WALL, name: 'Wall B', from: [-1000, 150], to: [5000, 150] }), {
        ...OPENING,
        centre: [OPENING.centre[0], 150, OPENING.centre[2]],
      });
      b.duct(DUCT);
    });
    expect(report.penetrations).toHaveLength(1);
    expect(report.penetrations[0]!.barrier.leaves.length).toBeGreaterThan(0);
    expect(faces).toHaveLength(1);
    expect(faces[0]!.outline.map(width)).toEqual([6000]);
    expect(faces[0]!.openings.map(width)).toEqual([OPENING.width]);
  });
});

describe('what is proposed', () => {
  const withChange = (report: Report, change: Change): Report => ({
    ...report,
    findings: report.findings.map((one, i) => (i === 0 ? { ...one, change: structuredClone(change) as never } : one)),
  });

  it('is the moved duct where it would be', async () => {
    const { federation, report } = await reviewOneWall();
    const [{ duct } = { duct: null }] = report.penetrations;
    const ref = { model: duct!.model, globalId: duct!.globalId };
    const change: Change = { kind: 'moveDuct', by: [-10, 0, 20], elements: [ref], lengths: [] };
    const { document, viewer } = await read(federation, withChange(report, change));
    expect(viewer.proposed.map(({ extras }) => extras)).toEqual([
      { kind: 'proposed', ...ref, finding: report.findings[0]!.id, by: [-10, 0, 20] },
    ]);
    const [min, max] = boxOf(named(document, 'proposed').listChildren()[0]!);
    expectNear(add(scale(min, 1000), federation.origin), [2690, -2500, 1820], FLOAT32_MM);
    expectNear(add(scale(max, 1000), federation.origin), [3290, 2500, 2220], FLOAT32_MM);
  });

  it('is the opening with its edges moved, and not the barrier that stays', async () => {
    const { federation, report } = await reviewOneWall();
    const [p] = report.penetrations;
    const opening = { model: p!.opening!.model, globalId: p!.opening!.globalId! };
    const barrier = { model: p!.barrier.model, globalId: p!.barrier.globalId };
    const sides = { top: 5, bottom: -20, left: 0, right: 10 };
    const change: Change = { kind: 'changeOpening', penetration: p!.id, barrier, opening, sides, diameter: 0 };
    const { document, viewer } = await read(federation, withChange(report, change));
    expect(viewer.proposed.map(({ extras }) => extras.globalId)).toEqual([opening.globalId]);
    const [min, max] = boxOf(named(document, 'proposed').listChildren()[0]!);
    const [x, , z] = OPENING.centre;
    const isRightEast = p!.frame.right[0] > 0;
    const [east, west] = isRightEast ? [10, 0] : [0, 10];
    expect(max[0] * 1000 + federation.origin[0]).toBeCloseTo(x + OPENING.width / 2 + east, 2);
    expect(min[0] * 1000 + federation.origin[0]).toBeCloseTo(x - OPENING.width / 2 - west, 2);
    expect(max[2] * 1000 + federation.origin[2]).toBeCloseTo(z + OPENING.height / 2 + 5, 2);
    expect(min[2] * 1000 + federation.origin[2]).toBeCloseTo(z - OPENING.height / 2 + 20, 2);
  });
});

describe('names that nobody would give', () => {
  it.each([
    ['markup', '</script><img src=x onerror=alert(1)>'],
    ['quotes and control characters', '"\\ \u0000\u0007\u2028\u2029 \ud83d\ude00'],
    ['words of JavaScript', '__proto__'],
    ['half a character', 'a\ud800b'],
  ])('%s stay what they are', async (_, name) => {
    const { federation, report } = await reviewOneWall();
    const renamed: Federation = {
      ...federation,
      airElements: federation.airElements.map((one) => ({ ...one, name, system: name })),
    };
    const { viewer } = await read(renamed, {
      ...report,
      findings: report.findings.map((one) => ({ ...one, message: name })),
    });
    // What no UTF-8 can hold comes back as the character that stands for it.
    const kept = name.replace('\ud800', '\ufffd');
    const duct = viewer.elements.find(({ extras }) => extras.kind === 'duct')!;
    expect([name, kept]).toContain(duct.extras.name);
    expect([name, kept]).toContain(duct.extras.system);
    expect(viewer.findings.every(({ extras }) => [name, kept].includes(extras.message))).toBe(true);
    expect(viewer.findings.length).toBeGreaterThan(0);
  });
});
