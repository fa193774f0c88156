/** What goes round each piece of ductwork: sections, developed surfaces, what lies within barriers, and why not. */
import { describe, expect, it } from 'vitest';
import { hollow, ringFrom, several, solid } from '../../fixtures/builder/representations.js';
import { ModelBuilder, type StraightSpec } from '../../fixtures/model-builder.js';
import { readDuctWall } from '../../src/find/duct-wall.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { measuresOf } from '../../src/find/part-measures.js';
import { boxOf } from '../../src/geometry/box.js';
import type { AirElement, Body, Prism, ProjectFacts, StretchPart } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

const LEVEL = 2500;
const DUCT = { width: 600, height: 400, system: 'KX' } as const;
const rect = (width: number, height: number) => ({ shape: 'rectangle', width, height }) as const;
const WRAPPED: ProjectFacts = {
  ...NO_FACTS,
  protections: [{ system: 'KX', kind: 'blanket', layers: 2, evidence: 'an invented drawing' }],
};

async function partsOf(build: (b: ModelBuilder) => void, facts: ProjectFacts = WRAPPED): Promise<StretchPart[]> {
  const b = new ModelBuilder({ fileName: 'measures.ifc' });
  build(b);
  const federation = await readFederation([{ name: 'measures.ifc', bytes: new TextEncoder().encode(b.toString()) }], {
    facts,
  });
  return findPenetrations(federation, { facts })
    .runs.flatMap(({ stretches }) => stretches.flatMap(({ parts }) => parts))
    .sort((p, q) => p.from[0] - q.from[0] || p.from[2] - q.from[2]);
}

const straight = (b: ModelBuilder, from: number, to: number, more: Partial<StraightSpec> = {}) =>
  b.duct({ name: 'A', from: [from, 0, LEVEL], to: [to, 0, LEVEL], ...DUCT, ...more } as StraightSpec);
const wall = (b: ModelBuilder, x: number, turned = 0) =>
  b.wall({
    ...{ name: `W ${x}`, height: 3400, thickness: 200, rating: '-/60/60' },
    ...{ from: [x - turned, -2000], to: [x + turned, 2000] },
  });

describe('a straight piece', () => {
  it('has the outside of its sheet, and what lies of it within each barrier', async () => {
    const parts = await partsOf((b) => {
      straight(b, 0, 6000);
      wall(b, 1500);
      wall(b, 4000);
    });
    expect(parts.map(({ length, measures }) => [length, measures!.inBarrier])).toEqual([
      [1500, 100],
      [2500, 200],
      [2000, 100],
    ]);
    for (const { measures, storey } of parts) {
      expect(measures).toMatchObject({ way: 'level', surfaceM2: null, insulation: null, unknown: null, ends: [] });
      expect(measures!.section).toEqual({ shape: 'rectangular', width: 600, height: 400, diameter: null });
      expect(storey).toMatch(/^.{22}$/);
    }
  });

  it('passes an askew wall over thickness / cos', async () => {
    // tan = 1000 / 2000, so cos = 2 / √5: 200 · √5 / 2 / 2 on each side of the middle.
    const parts = await partsOf((b) => {
      straight(b, 0, 6000);
      wall(b, 3000, 1000);
    });
    for (const { measures } of parts) expect(measures!.inBarrier).toBeCloseTo((100 * Math.sqrt(5)) / 2, 1);
  });

  it('that goes up has no underside; a round one has its diameter', async () => {
    const [up] = await partsOf((b) => {
      b.duct({ name: 'R', from: [0, 0, 0], to: [0, 0, 3000], diameter: 400, system: 'KX' });
    });
    expect(up!.measures).toMatchObject({ way: 'upright', section: { shape: 'circular', diameter: 400 } });
  });

  it('is measured to its sheet where its insulation is drawn with it, and says how thick that is', async () => {
    const insulated = { wall: { properties: { set: 'Office_Ducts', values: { InsulationThickness: 40 } } } };
    const [part] = await partsOf((b) => straight(b, 0, 3000, { draw: hollow(rect(600, 400), 40), ...insulated }));
    expect(part!.measures!.section).toMatchObject({ width: 520, height: 320 });
    expect(part!.measures!.insulation).toMatchObject({ thickness: 40 });
  });

  it('is not measured where nobody can tell what is drawn', async () => {
    const [part] = await partsOf((b) => straight(b, 0, 3000, { nominal: { width: 520, height: 320 } }));
    expect(part!.measures).toMatchObject({ section: null, surfaceM2: null });
    expect(part!.measures!.unknown).toMatch(/40 mm larger all round/);
  });

  it('is not measured either where the insulation that it is drawn with leaves no sheet', async () => {
    const insulated = { wall: { properties: { set: 'Office_Ducts', values: { InsulationThickness: 200 } } } };
    const [part] = await partsOf((b) => straight(b, 0, 3000, { nominal: { width: 201, height: 1 }, ...insulated }));
    expect(part!.measures).toMatchObject({ section: null, unknown: expect.stringMatching(/within the insulation/) });
  });

  it('is counted by its sheet alone where its insulation is a body of its own', async () => {
    const drawn = several(ringFrom(rect(680, 480), 40, 0, 3000), solid(rect(600, 400)));
    const [part] = await partsOf((b) => straight(b, 0, 3000, { draw: drawn }));
    expect(part!.measures!.section).toMatchObject({ width: 600, height: 400 });
    expect(part!.measures!.insulation).toMatchObject({ thickness: 40 });
  });
});

describe('what is not straight', () => {
  const bend = (b: ModelBuilder, size: object) => {
    straight(b, 0, 1000, size);
    b.bend({
      ...{ name: 'B', corner: [1600, 0, LEVEL], incoming: [1, 0, 0], outgoing: [0, 0, 1], radius: 600, system: 'KX' },
      ...(size as typeof DUCT),
    });
    b.duct({ name: 'C', from: [1600, 0, LEVEL + 600], to: [1600, 0, LEVEL + 1600], ...DUCT, ...size } as StraightSpec);
  };

  it.each([
    ['rectangular', { width: 600, height: 400 }, 2000],
    ['circular', { diameter: 400, sides: 96, width: undefined, height: undefined }, Math.PI * 400],
  ] as const)('a %s bend has U·R·θ, as exactly as it is drawn: within 0.5 %%', async (shape, size, around) => {
    const parts = await partsOf((b) => bend(b, size));
    const own = parts.find(({ name }) => name === 'B')!.measures!;
    // Eight chords to a right angle are up to 0.64 % shorter than its arc.
    expect(Math.abs((own.surfaceM2! * 1e6) / ((around * 600 * Math.PI) / 2) - 1)).toBeLessThan(0.005);
    expect(own.ends.map((end) => end.shape)).toEqual([shape, shape]);
    expect(own.unknown).toBeNull();
  });

  it('a transition between ducts that touch it, without ports, is four trapezoids', async () => {
    const parts = await partsOf((b) => {
      straight(b, 0, 1000);
      b.transition({
        ...{ name: 'T', from: [1000, 0, LEVEL], to: [1500, 0, LEVEL], endSize: { width: 300, height: 200 } },
        ...{ ...DUCT, ports: false },
      });
      straight(b, 1500, 2500, { width: 300, height: 200 });
    });
    const truth = 2 * 450 * Math.hypot(500, 100) + 2 * 300 * Math.hypot(500, 150);
    const own = parts.find(({ name }) => name === 'T')!.measures!;
    expect(own.surfaceM2! * 1e6).toBeCloseTo(truth, -2);
    expect(own.ends.map(({ width, height }) => [width, height])).toEqual([
      [600, 400],
      [300, 200],
    ]);
  });

  it('with an end at which nothing is told is not measured', async () => {
    const parts = await partsOf((b) => {
      straight(b, 0, 1000);
      b.transition({
        ...{ name: 'T', from: [1000, 0, LEVEL], to: [1500, 0, LEVEL], endSize: { width: 300, height: 200 } },
        ...{ ...DUCT, ports: false },
      });
    });
    const own = parts.find(({ name }) => name === 'T')!.measures!;
    expect([own.surfaceM2, own.unknown]).toEqual([null, 'where its ends are is not known: too few ports and joints']);
  });

  it('shares its surface out to both sides of a barrier', async () => {
    const parts = await partsOf((b) => {
      straight(b, 0, 1000);
      b.transition({
        ...{ name: 'T', from: [1000, 0, LEVEL], to: [2000, 0, LEVEL], endSize: { width: 300, height: 200 }, ...DUCT },
      });
      straight(b, 2000, 3000, { width: 300, height: 200 });
      wall(b, 1400);
    });
    const own = parts.filter(({ name }) => name === 'T');
    const truth = 2 * 450 * Math.hypot(1000, 100) + 2 * 300 * Math.hypot(1000, 150);
    expect(own.map(({ length }) => length).sort()).toEqual([400, 600]);
    expect(own.map(({ measures }) => measures!.inBarrier)).toEqual([100, 100]);
    expect(own.reduce((sum, { measures }) => sum + measures!.surfaceM2!, 0) * 1e6).toBeCloseTo(truth, -3);
  });
});

it('measures nothing where nothing is said to protect it', async () => {
  const [part] = await partsOf((b) => straight(b, 0, 3000), { ...NO_FACTS, protectionModelled: true });
  expect(part!.measures).toBeNull();
});

describe('of several bodies', () => {
  const box = (from: readonly [number, number, number], size: readonly [number, number, number]): Prism => ({
    kind: 'prism',
    frame: { origin: from, x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
    outline: [
      [0, 0],
      [size[0], 0],
      [size[0], size[1]],
      [0, size[1]],
    ],
    voids: [],
    sweep: [0, 0, size[2]],
  });
  /** An L on plan: 300 high, from (-1000, 200) to (200, -1000). */
  const corner: Prism = {
    ...box([0, 0, 0], [0, 0, 300]),
    outline: [
      [-1000, 0],
      [0, 0],
      [0, -1000],
      [400, -1000],
      [400, 400],
      [-1000, 400],
    ],
  };
  const flange = box([-1000, -30, -30], [30, 460, 360]);
  const element: AirElement = {
    ...{ model: 'm1', globalId: 'B', name: 'B', entity: 'IFCDUCTFITTING', kind: 'fitting', evidence: 'IfcDuctFitting' },
    ...{ storey: undefined, system: 'KX', systemType: undefined, material: 'steel', stated: {}, damper: undefined },
    ports: [
      { globalId: 'P1', at: [-1000, 200, 150], connectedTo: undefined },
      { globalId: 'P2', at: [200, -1000, 150], connectedTo: undefined },
    ],
    bodies: [],
  };
  const surfaceOf = (...bodies: readonly Body[]) =>
    measuresOf(
      {
        ...{ element, straight: undefined, bodies, otherReadings: [], box: boxOf(bodies) },
        wall: readDuctWall(element, undefined),
      },
      [],
    );

  it('the one that reaches all ends counts, whatever flanges are at one of them', () => {
    // On plan 1400 · 400 + 1000 · 400 twice, and 300 high along 1000 + 1000 + 1400 + 1400.
    const truth = (2 * (1400 * 400 + 1000 * 400) + 300 * 4800) / 1e6;
    expect(surfaceOf(corner).surfaceM2).toBeCloseTo(truth, 4);
    expect(surfaceOf(flange, corner).surfaceM2).toBeCloseTo(truth, 4);
  });

  it('none counts where two reach them, or none does', () => {
    const shell: Prism = { ...corner, sweep: [0, 0, 340] };
    expect(surfaceOf(corner, shell)).toMatchObject({ surfaceM2: null, unknown: expect.stringMatching(/2 bodies/) });
    expect(surfaceOf(flange, flange)).toMatchObject({ surfaceM2: null, unknown: expect.stringMatching(/2 bodies/) });
    expect(surfaceOf(flange)).toMatchObject({ surfaceM2: null, unknown: expect.stringMatching(/no flat face/) });
  });
});
