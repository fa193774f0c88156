/** What barriers leave of duct runs: stretches, their ends, what they serve; risers, branches, the way of the air. */
import { describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ElementRef, Federation, ProjectFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';
import { hasModels, modelFiles, modelInput } from '../reference/shared-models.js';

const encoder = new TextEncoder();
const DUCT = { width: 400, height: 250, system: 'SA' } as const;
const LEVEL = 2500;
type Builder = ModelBuilder;

const straight = (b: Builder, name: string, from: number, to: number, more: object = {}) =>
  b.duct({ name, from: [from, 0, LEVEL], to: [to, 0, LEVEL], ...DUCT, ...more });
/** Across the ducts, its middle at x. */
const wall = (b: Builder, name: string, x: number, rating?: string) =>
  b.wall({ name, from: [x, -2000], to: [x, 2000], height: 3400, thickness: 200, ...(rating && { rating }) });

async function read(build: (b: Builder) => void, schema?: 'IFC2X3') {
  const b = new ModelBuilder({ fileName: 'stretches.ifc', ...(schema && { schema }) });
  build(b);
  return readFederation([{ name: 'stretches.ifc', bytes: encoder.encode(b.toString()) }]);
}

function named(federation: Federation, facts?: ProjectFacts) {
  const names = new Map(federation.airElements.map((e) => [`${e.model}/${e.globalId}`, e.name]));
  const name = ({ model, globalId }: ElementRef) => names.get(`${model}/${globalId}`)!;
  const { runs, penetrations } = findPenetrations(federation, { facts });
  const barrierOf = new Map(penetrations.map(({ id, barrier }) => [id, barrier.name]));
  return runs.map((run) => ({
    ...run,
    branches: run.branches.map(name),
    risers: run.risers.map((riser) => ({
      ...riser,
      elements: riser.elements.map(name).sort(),
      penetrations: riser.penetrations.map((id) => barrierOf.get(id)),
    })),
    stretches: run.stretches
      .map(({ parts, ends, serves, length, looseEnds }) => ({
        parts: parts.map((part) => `${part.name} ${part.length}`).sort(),
        ends: [...new Set(ends.map(({ penetration }) => barrierOf.get(penetration)!))].sort(),
        serves: serves.map(name).sort(),
        loose: looseEnds.length,
        length,
      }))
      .sort((a, b) => (a.parts.join() < b.parts.join() ? -1 : 1)),
  }));
}
const stretchesIn = async (build: (b: Builder) => void, schema?: 'IFC2X3') =>
  named(await read(build, schema)).flatMap(({ stretches }) => stretches);

describe('a run is cut at the middle of barriers', () => {
  it('through one piece, and through two walls', async () => {
    const stretches = await stretchesIn((b) => {
      straight(b, 'A', 0, 6000);
      wall(b, 'W1', 1500, '-/60/60');
      wall(b, 'W2', 4000, '-/120/120');
    });
    expect(stretches).toEqual([
      { parts: ['A 1500'], ends: ['W1'], serves: [], loose: 1, length: 1500 },
      { parts: ['A 2000'], ends: ['W2'], serves: [], loose: 1, length: 2000 },
      { parts: ['A 2500'], ends: ['W1', 'W2'], serves: [], loose: 0, length: 2500 },
    ]);
  });

  it.each([
    [0, ['A 2000'], ['B 2000']],
    [30, ['A 2000'], ['A 30', 'B 1970']],
    [-30, ['A 1970', 'B 30'], ['B 2000']],
    [-100, ['A 1900', 'B 100'], ['B 2000']],
  ])('two pieces that meet %d mm beyond the middle', async (joint, before, behind) => {
    for (const turned of [false, true]) {
      const stretches = await stretchesIn((b) => {
        straight(b, 'A', 0, 2000 + joint);
        if (turned) straight(b, 'B', 4000, 2000 + joint);
        else straight(b, 'B', 2000 + joint, 4000);
        wall(b, 'W', 2000, '-/60/60');
      });
      // What is as short as a rounding of where the joint is counts for nothing.
      const parts = stretches.map((one) => one.parts.filter((part) => !part.endsWith(' 0')));
      expect(parts).toEqual([before, behind]);
      expect(stretches.map(({ ends, length }) => [ends, length])).toEqual([
        [['W'], 2000],
        [['W'], 2000],
      ]);
    }
  });

  it('in the middle of a damper that fills the wall, and of a transition', async () => {
    const stretches = await stretchesIn((b) => {
      straight(b, 'A', 0, 1900);
      b.damper({ name: 'FD', from: [1900, 0, LEVEL], to: [2100, 0, LEVEL], ...DUCT });
      straight(b, 'B', 2100, 3000);
      b.transition({
        name: 'T',
        from: [3000, 0, LEVEL],
        to: [3500, 0, LEVEL],
        ...DUCT,
        endSize: { width: 300, height: 250 },
      });
      wall(b, 'W1', 2000, '-/60/60');
      wall(b, 'W2', 3250, '-/60/60');
    });
    expect(stretches.map(({ parts, ends }) => [parts, ends])).toEqual([
      [['A 1900', 'FD 100'], ['W1']],
      [
        ['B 900', 'FD 100', 'T 250'],
        ['W1', 'W2'],
      ],
      [['T 250'], ['W2']],
    ]);
  });

  it('by walls that may be rated, not by those that are known to be not', async () => {
    const build = (asks: object) => (b: Builder) => {
      straight(b, 'A', 0, 4000);
      b.wall({ name: 'W', from: [2000, -2000], to: [2000, 2000], height: 3400, thickness: 200, ...asks });
    };
    expect(await stretchesIn(build({ compartmentation: false }))).toHaveLength(1);
    expect(await stretchesIn(build({ rating: '-/-/-' }))).toHaveLength(1);
    expect(await stretchesIn(build({}))).toHaveLength(2);
    expect(await stretchesIn(build({ rating: 'TBC' }))).toHaveLength(2);
  });
});

it('names what each stretch serves, and the ends at which nothing is modelled', async () => {
  const stretches = await stretchesIn((b) => {
    straight(b, 'A', 0, 4000);
    wall(b, 'W', 2000, '-/60/60');
    b.terminal({ name: 'grille', from: [4000, 0, LEVEL], to: [4100, 0, LEVEL], ...DUCT });
    b.duct({ name: 'branch', from: [3000, 125, LEVEL], to: [3000, 2000, LEVEL], ...DUCT });
  });
  expect(stretches.map(({ serves, loose }) => [serves, loose])).toEqual([
    [[], 1],
    [['grille'], 1],
  ]);
});

it('a piece joins those of its stretch, not what the stretch serves', async () => {
  const federation = await read((b) => {
    straight(b, 'A', 0, 2000);
    straight(b, 'B', 2000, 4000);
    b.terminal({ name: 'grille', from: [4000, 0, LEVEL], to: [4100, 0, LEVEL], ...DUCT });
  });
  const [run] = findPenetrations(federation).runs;
  expect(run!.stretches.map(({ parts }) => parts.map(({ joins }) => joins))).toEqual([[[1], [0]]]);
});

describe('the way of the air', () => {
  it.each([undefined, 'IFC2X3'] as const)('is what ports say, in %s', async (schema) => {
    const [run] = named(
      await read((b) => {
        const parts = [0, 1, 2].map((i) => straight(b, `D${i}`, i * 1000, (i + 1) * 1000, { ports: 'flowing' }));
        b.connect(...parts);
      }, schema),
    );
    expect(run!.joints.map(({ flow }) => flow)).toEqual(['forward', 'forward']);
  });

  it('is not known where they say both, or contradict each other', async () => {
    const [run] = named(
      await read((b) => {
        const a = straight(b, 'A', 0, 1000, { ports: 'flowing' });
        const against = straight(b, 'B', 2000, 1000, { ports: 'flowing' });
        const both = straight(b, 'C', 2000, 3000, { ports: true });
        b.connect(a, against);
        b.connect(against, both);
      }),
    );
    // Into B at the side of C: half of it says so, and nothing against it.
    expect(run!.joints.map(({ flow }) => flow)).toEqual([null, 'backward']);
  });
});

it('tells risers and branches', async () => {
  const [run] = named(
    await read((b) => {
      for (const [i, z] of [3600, 7200].entries())
        b.slab({
          name: `S${i}`,
          outline: [
            [-2000, -2000],
            [2000, -2000],
            [2000, 2000],
            [-2000, 2000],
          ],
          top: z,
          thickness: 200,
          rating: '120/120/120',
        });
      const up = { width: 400, height: 250, system: 'SA' } as const;
      b.duct({ name: 'low', from: [0, 0, 1000], to: [0, 0, 5000], ...up });
      b.duct({ name: 'high', from: [0, 0, 5000], to: [0, 0, 9000], ...up });
      b.duct({ name: 'along', from: [200, 0, 4500], to: [2000, 0, 4500], ...up });
      b.duct({ name: 'stub', from: [0, 0, 9000], to: [0, 0, 9400], ...up });
      b.duct({ name: 'along too', from: [200, 0, 4000], to: [2000, 0, 4000], ...up });
    }),
  );
  expect(run!.risers).toEqual([
    { elements: ['high', 'low', 'stub'], penetrations: ['S0', 'S1'], from: 1000, to: 9400 },
  ]);
  expect(run!.branches).toEqual(['low']);
});

describe('protection of each part', () => {
  const declared = (protections: ProjectFacts['protections'], protectionModelled = true): ProjectFacts => ({
    ...NO_FACTS,
    protectionModelled,
    protections,
  });
  const kindsIn = async (facts: ProjectFacts) => {
    const federation = await read((b) => {
      straight(b, 'A', 0, 1000);
      straight(b, 'B', 1000, 2000);
    });
    return findPenetrations(federation, { facts }).runs[0]!.stretches[0]!.parts.map(({ name, protection }) => [
      name,
      protection.kind,
    ]);
  };
  const of = (what: object, kind: 'blanket' | 'none' = 'blanket') => ({
    kind,
    evidence: 'drawing M-1 (invented)',
    ...what,
  });

  it('is what the brief says of the duct, else of its system', async () => {
    expect((await kindsIn(declared([of({ system: 'SA' }), of({ duct: 'B' }, 'none')]))).sort()).toEqual([
      ['A', 'blanket'],
      ['B', 'none'],
    ]);
    expect((await kindsIn(declared([of({ duct: 'A' })], false))).sort()).toEqual([
      ['A', 'blanket'],
      ['B', 'unknown'],
    ]);
  });

  it('is what coverings show whose names the brief knows', async () => {
    const federation = await read((b) => {
      straight(b, 'A', 0, 1000, { wall: { covering: { predefined: 'WRAPPING', name: 'Fire blanket two layers' } } });
      straight(b, 'B', 1000, 2000, { wall: { covering: { predefined: 'INSULATION', name: 'Thermal wool' } } });
    });
    const facts = declared([of({ covering: ['fire blanket'] })]);
    const parts = findPenetrations(federation, { facts }).runs[0]!.stretches[0]!.parts;
    expect(parts.map(({ name, protection }) => [name, protection.kind]).sort()).toEqual([
      ['A', 'blanket'],
      ['B', 'none'],
    ]);
  });
});

const without = (federation: Federation): Federation => ({
  ...federation,
  airElements: federation.airElements.map((element) => ({ ...element, ports: [] })),
});
const shownBy = (federation: Federation) =>
  named(federation)
    .flatMap(({ stretches }) => stretches.map(({ parts, ends, serves }) => JSON.stringify([parts, ends, serves])))
    .sort();

it('the demo building has the same stretches without any port', async () => {
  const files = demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const federation = await readFederation(files);
  const shown = shownBy(federation);
  expect(shown.length).toBeGreaterThan(50);
  // Bends and branches show their ports as ends; without them their length is what joints tell.
  const names = (list: string[]) => list.map((one) => one.replaceAll(/ \d+(\.\d+)?"/g, '"')).sort();
  expect(names(shownBy(without(federation)))).toEqual(names(shown));
});

describe.skipIf(!hasModels)('real models', () => {
  it.each(modelFiles)('%s: every part of a run lies in one stretch', { timeout: 120_000 }, async (file) => {
    const federation = await readFederation([modelInput(file)]);
    for (const run of findPenetrations(federation).runs) {
      const inStretches = new Set(run.stretches.flatMap(({ parts }) => parts.map(({ globalId }) => globalId)));
      expect([...inStretches].sort()).toEqual([...new Set(run.elements.map(({ globalId }) => globalId))].sort());
    }
  });
});

it('lists the penetrations of a riser and what a duct joins in their order, whichever was drawn first', async () => {
  const federation = await read((b) => {
    const outline = rectangle([-2000, -2000], [2000, 2000]);
    for (const [i, top] of [3000, 6000, 9000, 12_000].entries())
      b.slab({ name: `S${i}`, outline, top, thickness: 200 });
    const up = (name: string, from: number, to: number) =>
      b.duct({ name, from: [0, 0, from], to: [0, 0, to], width: 400, height: 250, system: 'SA' });
    for (const i of [2, 0, 3, 1]) up(`U${i}`, 1500 + 3000 * i, 4500 + 3000 * i);
    for (const z of [5200, 4800, 5600, 4600])
      b.duct({ name: `along ${z}`, from: [200, 0, z], to: [2000, 0, z], width: 200, height: 100, system: 'SA' });
  });
  const [run] = findPenetrations(federation).runs;
  const [riser] = run!.risers;
  expect(riser!.penetrations).toEqual(['P-0001', 'P-0002', 'P-0003', 'P-0004']);
  const joins = run!.stretches.flatMap(({ parts }) => parts.map((part) => part.joins));
  expect(Math.max(...joins.map((indices) => indices.length))).toBeGreaterThan(4);
  for (const indices of joins) expect(indices).toEqual([...indices].sort((a, b) => a - b));
});
