/** What a brief says of the models, as reading and finding go by it. */
import { describe, expect, it } from 'vitest';
import { DUCT, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ProjectFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from './no-facts.js';

async function review(build: (b: ModelBuilder) => void, facts: Partial<ProjectFacts>) {
  const b = new ModelBuilder({ fileName: 'facts.ifc' });
  build(b);
  const all = { ...NO_FACTS, ...facts };
  const federation = await readFederation([{ name: 'facts.ifc', bytes: new TextEncoder().encode(b.toString()) }], {
    facts: all,
  });
  return { federation, penetrations: findPenetrations(federation, { facts: all }).penetrations };
}
const { rating: _, ...UNRATED } = WALL;

describe('ratings from drawings', () => {
  const drawing = { barrier: WALL.name, rating: '-/60/60', drawing: 'A-101', revision: 'C' };

  it('stand in where the model states none', async () => {
    const { federation } = await review((b) => b.wall(UNRATED), { ratings: [drawing] });
    expect(federation.barriers[0]!.rating).toMatchObject({ state: 'stated', integrity: 60, from: 'brief' });
    expect(federation.models[0]!.problems).toEqual([]);
  });

  it('give way to the model where both state one, and the difference is said', async () => {
    const { federation } = await review((b) => b.wall(WALL), { ratings: [drawing] });
    expect(federation.barriers[0]!.rating).toMatchObject({ text: '-/120/120', from: 'occurrence' });
    expect(federation.models[0]!.problems.map((p) => p.code)).toEqual(['rating-disagrees']);
  });

  it('that can not be read stay unreadable', async () => {
    const { federation } = await review((b) => b.wall(UNRATED), { ratings: [{ ...drawing, rating: 'about an hour' }] });
    expect(federation.barriers[0]!.rating).toMatchObject({ state: 'unreadable', from: 'brief' });
  });
});

it("reads a project's own property for the rating", async () => {
  const { federation } = await review((b) => b.wall({ ...WALL, ratingOn: '2x3set' }), {
    ratingProperties: [{ set: 'Pset_FireRatingProperties', property: 'FireResistanceRating' }],
  });
  expect(federation.barriers[0]!.rating).toMatchObject({ state: 'stated', integrity: 120 });
});

it("takes a project's own words for constructions and dampers", async () => {
  const { federation } = await review(
    (b) => {
      b.wall({ ...WALL, layers: [{ material: 'Build-up 12', thickness: 128 }] });
      b.damper({
        name: 'ZZ-type 4',
        from: [3000, -64, 2000],
        to: [3000, 64, 2000],
        width: 600,
        height: 400,
        purpose: 'NOTDEFINED',
      });
    },
    {
      constructions: [{ words: ['build-up 12'], construction: 'shaftWall' }],
      damperPurposes: [{ words: ['zz-type'], purpose: 'fire' }],
    },
  );
  expect(federation.barriers[0]!.construction).toBe('shaftWall');
  expect(federation.airElements[0]!.damper!.purpose).toBe('fire');
});

describe('treatment', () => {
  const build = (b: ModelBuilder) => {
    b.wall(WALL);
    b.duct({ ...DUCT, system: 'KX' });
  };
  const blanket = { kind: 'blanket', layers: 2, integrity: 120, insulation: 120, evidence: 'M-201 rev B' } as const;

  it('is unknown where nothing is seen, and none only where the brief says that all is declared', async () => {
    expect((await review(build, {})).penetrations[0]!.treatment.kind).toBe('unknown');
    expect((await review(build, { protectionModelled: true })).penetrations[0]!.treatment.kind).toBe('none');
  });

  it.each([{ system: 'KX' }, { duct: DUCT.name }])('is what the brief declares for %j', async (whom) => {
    const { penetrations } = await review(build, { protections: [{ ...whom, ...blanket }] });
    expect(penetrations[0]!.treatment).toEqual({
      kind: 'blanket',
      layers: 2,
      integrity: 120,
      insulation: 120,
      evidence: 'brief: M-201 rev B',
    });
  });

  it('of another system is not taken', async () => {
    const { penetrations } = await review(build, { protections: [{ system: 'SP', ...blanket }] });
    expect(penetrations[0]!.treatment.kind).toBe('unknown');
  });
});

describe('what ducts and their systems state', () => {
  const through = (value: string) => (b: ModelBuilder) => {
    b.wall(WALL);
    b.system('E1', { longName: 'Kitchen exhaust', properties: { set: 'Project_Fire', name: 'FRL', value } });
    b.duct({ ...DUCT, system: 'E1' });
  };
  const property = { set: 'Project_Fire', property: 'FRL' };

  it('comes along only where the brief asks for it', async () => {
    const silent = await review(through('EI 60'), {});
    expect(silent.penetrations[0]!.duct).toMatchObject({
      systemNames: ['Kitchen exhaust'],
      properties: [],
      ratings: { required: null, reached: null },
    });
    const { penetrations } = await review(through('EI 60'), { ductProperties: [property] });
    expect(penetrations[0]!.duct.properties).toEqual([{ ...property, value: 'EI 60' }]);
  });

  it('is what the duct must reach', async () => {
    const { penetrations } = await review(through('EI 60'), {
      ductRatingProperties: [{ ...property, means: 'required' }],
    });
    const [found] = penetrations;
    expect(found!.duct.ratings).toMatchObject({ required: { integrity: 60, from: 'occurrence' }, reached: null });
    // What must be is not there yet.
    expect(found!.treatment.kind).toBe('unknown');
  });

  it.each([
    ['EI 60', undefined, { kind: 'fireResistingDuct', integrity: 60, insulation: 60 }],
    ['EI 60', 'blanket', { kind: 'blanket', integrity: 60, insulation: 60 }],
    ['E 30', 'board', { kind: 'board', integrity: 30, insulation: 0 }],
    // Neither a bare duration nor minutes at 600 °C are minutes of a criterion of the standard fire.
    ['60 min', undefined, { kind: 'fireResistingDuct', integrity: null, insulation: null }],
    ['E600 120 (ho) S 500 single', undefined, { kind: 'fireResistingDuct', integrity: null }],
    ['to be confirmed', undefined, { kind: 'fireResistingDuct', integrity: null, insulation: null }],
  ] as const)('"%s" is what protects it, as %s', async (value, kind, treatment) => {
    const { penetrations } = await review(through(value), {
      ductRatingProperties: [{ ...property, means: 'reached', kind }],
    });
    expect(penetrations[0]!.treatment).toMatchObject({
      ...treatment,
      evidence: `"${value}", which the duct states to reach`,
    });
  });

  it('gives way to what the brief declares', async () => {
    const declared = { system: 'E1', kind: 'blanket', integrity: 120, insulation: 120, evidence: 'M-1' } as const;
    const { penetrations } = await review(through('EI 60'), {
      ductRatingProperties: [{ ...property, means: 'reached' }],
      protections: [declared],
    });
    expect(penetrations[0]!.treatment).toMatchObject({ kind: 'blanket', integrity: 120, evidence: 'brief: M-1' });
  });
});
