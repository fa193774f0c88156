/**
 * The demo building as it is found and measured, against what its own plan says (fixtures/demo: school geometry, nothing
 * of the program under test): every crossing, no more and no fewer, to 0.5 mm; the same from IFC2X3 in feet.
 */
import { describe, expect, it } from 'vitest';
import type { ExpectedPenetration } from '../../fixtures/cases/truth.js';
import { type DemoOptions, demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ElementRef, Penetration } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const TOLERANCE = 0.5;
const near = (n: number) => expect.closeTo(n, -Math.log10(2 * TOLERANCE));
const encoder = new TextEncoder();

async function read(options: DemoOptions) {
  const demo = demoBuilding(options);
  const inputs = demo.files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  return { truth: demo.truth, federation: await readFederation(inputs) };
}

const pair = (duct: string, barrier: string) => `${duct} through ${barrier}`;

describe.each([
  ['IFC4', {}],
  ['the architecture as IFC2X3 in feet', { schema: 'IFC2X3', unit: 'foot' }],
] as const)('%s', async (_, options) => {
  const { truth, federation } = await read(options);

  it('is read without a problem, in engineering coordinates', () => {
    expect(federation.models.flatMap((m) => m.problems)).toEqual([]);
    expect(federation.frame).toBe('engineering');
    const names = [...federation.airElements, ...federation.barriers].map((e) => e.name);
    expect(new Set(names).size).toBe(names.length);
  });

  // One test of all, since finding is what takes the time.
  it('has the crossings of the plan and the duct ends that face each other, no more and no fewer, each as drawn', () => {
    const { penetrations, facingEnds } = findPenetrations(federation);
    const elements = [...federation.airElements, ...federation.otherServices, ...federation.barriers];
    const names = new Map(elements.map((e) => [e.globalId, e.name]));
    const name = ({ globalId }: Pick<ElementRef, 'globalId'>) => names.get(globalId) ?? globalId;
    const nameOf = (id: string) => penetrations.find((one) => one.id === id)?.duct.name ?? name({ globalId: id });
    expect(penetrations.map((p) => pair(p.duct.name, p.barrier.name)).sort()).toEqual(
      truth.penetrations.map((p) => pair(p.duct, p.barrier)).sort(),
    );
    const plan = new Map(truth.penetrations.map((one) => [pair(one.duct, one.barrier), one]));
    const drawn = penetrations.map((p) => [pair(p.duct.name, p.barrier.name), shown(p, nameOf)] as const);
    expect(Object.fromEntries(drawn)).toEqual(Object.fromEntries([...plan].map(([of, one]) => [of, planned(one)])));
    expect(facingEnds.map((f) => ({ ...f, barrier: f.barrier.name, ends: f.ends.map(name).sort() }))).toMatchObject(
      truth.facingEnds.map((f) => ({ ...f, position: f.position.map(near), distance: near(f.distance) })),
    );
  });
});

/** What the plan says of a crossing, as `shown` has it. */
function planned(expected: ExpectedPenetration) {
  const { section, opening, gaps, elements } = expected;
  const given = Object.entries(gaps ?? { min: null, max: null });
  return {
    crossing: expected.crossing,
    position: expected.position!.map(near),
    skew: expect.closeTo(expected.skew, 1),
    shape: section.shape,
    size: 'diameter' in section ? [near(section.diameter)] : [near(section.width), near(section.height)],
    opening:
      opening && expect.objectContaining({ ...opening, width: near(opening.width), height: near(opening.height) }),
    gaps: expect.objectContaining(
      Object.fromEntries(given.map(([side, gap]) => [side, gap === null ? null : near(gap)])),
    ),
    facing: expected.facing,
    neighbours: expected.neighbours.map((n) => [n.duct, near(n.distance)]).sort(),
    others: expected.others,
    elements: elements ?? expect.any(Array),
    dampers: expected.dampers ?? [],
    leaves: [],
    thickness: near(expected.thickness),
    rating: expected.rating,
  };
}

function shown(p: Penetration, nameOf: (id: string) => string) {
  const named = (refs: readonly ElementRef[]) => refs.map(({ globalId }) => nameOf(globalId));
  return {
    crossing: p.crossing,
    position: [...p.position],
    skew: p.skew,
    shape: p.duct.shape,
    size: sizeOf(p),
    opening: p.opening,
    gaps: p.gaps,
    facing: Object.fromEntries(Object.entries(p.gaps.facing).map(([side, id]) => [side, nameOf(id)])),
    neighbours: p.neighbours.map((n) => [nameOf(n.penetration), n.distance]).sort(),
    others: named(p.others),
    elements: named(p.elements),
    dampers: named(p.dampers),
    leaves: p.barrier.leaves,
    thickness: p.barrier.thickness,
    rating: p.barrier.rating.text,
  };
}

function sizeOf({ duct: { shape, width, height, diameter } }: Penetration) {
  return shape === 'circular' ? [diameter] : [width, height];
}

it('keeps the duct and the tag that the README shows', async () => {
  const { federation } = await read({});
  const { penetrations } = findPenetrations(federation);
  expect(penetrations.find((p) => p.tag === 'GJSD-J')).toMatchObject({
    duct: { name: 'SA-G-2' },
    barrier: { name: 'Corridor wall G' },
    gaps: { right: 140 },
  });
});
