/**
 * The demo building as it is found and measured, against what its own plan says (fixtures/demo: school geometry, nothing
 * of the program under test): every crossing, no more and no fewer, to 0.5 mm; the same from IFC2X3 in feet.
 */
import { describe, expect, it } from 'vitest';
import { type DemoOptions, demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ElementRef, Penetration } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const TOLERANCE = 0.5;
const near = (n: number) => expect.closeTo(n, -Math.log10(2 * TOLERANCE));
const encoder = new TextEncoder();

async function found(options: DemoOptions) {
  const demo = demoBuilding(options);
  const inputs = demo.files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const federation = await readFederation(inputs);
  const elements = [...federation.airElements, ...federation.otherServices, ...federation.barriers];
  const names = new Map(elements.map((e) => [e.globalId, e.name]));
  const name = ({ globalId }: Pick<ElementRef, 'globalId'>) => names.get(globalId) ?? globalId;
  return { demo, federation, crossings: findPenetrations(federation), name };
}

const pair = (duct: string, barrier: string) => `${duct} through ${barrier}`;

describe.each([
  ['IFC4', {}],
  ['the architecture as IFC2X3 in feet', { schema: 'IFC2X3', unit: 'foot' }],
] as const)('%s', async (_, options) => {
  const { demo, federation, crossings, name } = await found(options);
  const { penetrations, facingEnds } = demo.truth;
  const actual = new Map(crossings.penetrations.map((p) => [pair(p.duct.name, p.barrier.name), p]));

  it('is read without a problem, in engineering coordinates', () => {
    expect(federation.models.flatMap((m) => m.problems)).toEqual([]);
    expect(federation.frame).toBe('engineering');
    const names = [...federation.airElements, ...federation.barriers].map((e) => e.name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('has the crossings of the plan, no more and no fewer', () => {
    expect(crossings.penetrations.map((p) => pair(p.duct.name, p.barrier.name)).sort()).toEqual(
      penetrations.map((p) => pair(p.duct, p.barrier)).sort(),
    );
  });

  it.each(penetrations)('$duct through $barrier', (expected) => {
    const p = actual.get(pair(expected.duct, expected.barrier))!;
    const { section, opening, gaps } = expected;
    const nameOf = (id: string) =>
      crossings.penetrations.find((one) => one.id === id)?.duct.name ?? name({ globalId: id });
    expect(p.crossing).toBe(expected.crossing);
    expect([...p.position]).toEqual(expected.position!.map(near));
    expect(p.skew).toBeCloseTo(expected.skew, 1);
    expect(p.duct.shape).toBe(section.shape);
    expect(sizeOf(p)).toEqual(
      'diameter' in section ? [near(section.diameter)] : [near(section.width), near(section.height)],
    );
    expect(p.opening).toEqual(
      opening && expect.objectContaining({ ...opening, width: near(opening.width), height: near(opening.height) }),
    );
    for (const [side, gap] of Object.entries(gaps ?? { min: null, max: null }))
      expect(p.gaps[side as 'min'], side).toEqual(gap === null ? null : near(gap));
    expect(Object.fromEntries(Object.entries(p.gaps.facing).map(([side, id]) => [side, nameOf(id)]))).toEqual(
      expected.facing,
    );
    expect(p.neighbours.map((n) => [nameOf(n.penetration), n.distance]).sort()).toEqual(
      expected.neighbours.map((n) => [n.duct, near(n.distance)]).sort(),
    );
    expect(p.others.map(name)).toEqual(expected.others);
    if (expected.elements) expect(p.elements.map(name)).toEqual(expected.elements);
    expect(p.dampers.map(name)).toEqual(expected.dampers ?? []);
    expect(p.barrier.leaves).toEqual([]);
    expect(p.barrier.thickness).toEqual(near(expected.thickness));
    expect(p.barrier.rating.text).toBe(expected.rating);
  });

  it('has the duct ends that face each other', () => {
    expect(
      crossings.facingEnds.map((f) => ({ ...f, barrier: f.barrier.name, ends: f.ends.map(name).sort() })),
    ).toMatchObject(facingEnds.map((f) => ({ ...f, position: f.position.map(near), distance: near(f.distance) })));
  });
});

function sizeOf({ duct: { shape, width, height, diameter } }: Penetration) {
  return shape === 'circular' ? [diameter] : [width, height];
}

it('keeps the duct and the tag that the README shows', async () => {
  const { crossings } = await found({});
  const shown = crossings.penetrations.find((p) => p.tag === 'GJSD-J');
  expect(shown).toMatchObject({ duct: { name: 'SA-G-2' }, barrier: { name: 'Corridor wall G' }, gaps: { right: 140 } });
});
