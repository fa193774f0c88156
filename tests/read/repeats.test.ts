/** The same element in two files, and GlobalIds that repeat. */
import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const WALL_ID = '0000000000000000000001';
const DUCT_ID = '0000000000000000000002';
type Wall = Partial<Parameters<ModelBuilder['wall']>[0]>;

function architecture(name: string, wall: Wall = {}, opened = true) {
  const b = new ModelBuilder({ fileName: name });
  const built = b.wall({ ...WALL, globalId: WALL_ID, ...wall } as Parameters<ModelBuilder['wall']>[0]);
  if (opened) b.opening(built, OPENING);
  return { name, bytes: new TextEncoder().encode(b.toString()) };
}

function services(name: string, ...ducts: Partial<Parameters<ModelBuilder['duct']>[0]>[]) {
  const b = new ModelBuilder({ fileName: name });
  for (const duct of ducts) b.duct({ ...DUCT, globalId: DUCT_ID, ...duct } as Parameters<ModelBuilder['duct']>[0]);
  return { name, bytes: new TextEncoder().encode(b.toString()) };
}

const problems = ({ models }: Federation) =>
  models.flatMap(({ id, problems }) =>
    problems.map(({ code, globalId, message }) => ({ id, code, globalId, message })),
  );

describe('the same element in two files', () => {
  it('is one: one penetration, and a problem that names both files', async () => {
    const federation = await readFederation([
      architecture('architecture.ifc'),
      architecture('structure.ifc', { body: 'mesh' }, false),
      services('services.ifc', {}),
    ]);
    expect(federation.barriers.length).toBe(1);
    expect(problems(federation)).toEqual([
      {
        id: 'm3',
        code: 'element-repeated',
        globalId: WALL_ID,
        message: '"Wall A" stands in architecture.ifc too, in the same place; it is counted once.',
      },
    ]);
    const { penetrations, barriers } = findPenetrations(federation);
    expect(barriers.length).toBe(1);
    expect(penetrations.length).toBe(1);
    expect(penetrations[0]!.gaps).toMatchObject({ left: 60, right: 40, top: 30, bottom: 70 });
  });

  it('has what either file says of it', async () => {
    const { rating: _, ...unrated } = WALL;
    const federation = await readFederation(
      [
        architecture('a.ifc', { ...unrated, rating: undefined } as unknown as Wall, false),
        architecture('b.ifc', { layers: [{ material: 'Concrete', thickness: 128 }] }),
        services('services.ifc', {}),
      ],
      { constructions: [{ construction: 'concrete', words: ['concrete'] }] },
    );
    expect(federation.barriers).toMatchObject([
      {
        model: 'm1',
        rating: { text: '-/120/120' },
        layers: [{ material: 'Concrete', thickness: 128 }],
        openings: [{ model: 'm2' }],
      },
    ]);
    expect(findPenetrations(federation).penetrations).toMatchObject([{ opening: { width: 700 }, gaps: { min: 30 } }]);
  });

  it('has no rating that is known where the files contradict each other', async () => {
    const federation = await readFederation([
      architecture('a.ifc'),
      architecture('b.ifc', { rating: '-/60/60' }),
      services('services.ifc', {}),
    ]);
    expect(federation.barriers.map((b) => b.rating)).toMatchObject([
      { state: 'unreadable', text: '"-/120/120" and "-/60/60"', integrity: null, insulation: null },
    ]);
    expect(problems(federation)).toContainEqual({
      id: 'm2',
      code: 'rating-disagrees',
      globalId: WALL_ID,
      message:
        '"Wall A" stands in a.ifc too, rated "-/120/120" there and "-/60/60" here; the rating is taken as not known.',
    });
  });

  it('is found by any file order, also as a duct and in files that differ in unit', async () => {
    const files = [architecture('architecture.ifc'), services('s1.ifc', {}), services('s2.ifc', {})];
    const forth = await readFederation(files);
    expect(forth.airElements.length).toBe(1);
    expect(await readFederation([...files].reverse())).toEqual(forth);
    expect(findPenetrations(forth).penetrations.length).toBe(1);
  });

  it('counts in each file as what the file holds, so that nothing read is lost', async () => {
    const { models } = await readFederation([services('s1.ifc', {}), services('s2.ifc', {})]);
    expect(models.map((m) => m.counts.ducts)).toEqual([1, 1]);
  });
});

describe('the same GlobalId in another place', () => {
  const elsewhere = { from: [1000, -2500, 2000], to: [1000, 2500, 2000] } as const;

  it('is another element: both count, and a problem says how far apart they are', async () => {
    const federation = await readFederation([
      architecture('architecture.ifc'),
      services('s1.ifc', {}),
      services('s2.ifc', elsewhere),
    ]);
    expect(federation.airElements.length).toBe(2);
    expect(problems(federation)).toEqual([
      {
        id: 'm3',
        code: 'globalid-repeated',
        globalId: DUCT_ID,
        message:
          '"Duct A" stands in s1.ifc too, with the same GlobalId but 2000 mm away; both are counted, one may be out of date.',
      },
    ]);
    const { penetrations } = findPenetrations(federation);
    expect(penetrations.length).toBe(2);
    expect(new Set(penetrations.map((p) => p.key)).size).toBe(2);
  });

  it('within one file too', async () => {
    const federation = await readFederation([architecture('architecture.ifc'), services('s.ifc', {}, elsewhere, {})]);
    expect(federation.airElements.length).toBe(2);
    expect(problems(federation).map((p) => p.code)).toEqual(['globalid-repeated', 'element-repeated']);
    expect(problems(federation)[1]!.message).toBe(
      '"Duct A" stands a second time in this file, in the same place; it is counted once.',
    );
  });
});
