/**
 * Statements about real models, made by various authoring programs: buildingSMART sample files (CC BY 4.0, CC BY-ND 4.0)
 * and test files of open repositories. What is expected was read in the files themselves, not in this program's output.
 */
import { describe, expect, it } from 'vitest';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Barrier, Crossings, Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { ratedrun, temporaryFolder } from '../cli/program.js';
import { hasModels, MODELS, modelFiles, modelInput } from './shared-models.js';

async function review(...files: string[]): Promise<{ federation: Federation; crossings: Crossings }> {
  const federation = await readFederation(files.map(modelInput));
  return { federation, crossings: findPenetrations(federation) };
}
const ratings = (barriers: readonly Barrier[]) => {
  const counts: Record<string, number> = {};
  for (const { rating } of barriers) {
    const key = rating.text === null ? rating.state : `${rating.state} ${rating.text}`;
    counts[key] = (counts[key] ?? 0) + 1;
  }
  return counts;
};

describe.skipIf(!hasModels)('real models', () => {
  it('the house in three files: one round duct through the hole in the roof slab', async () => {
    const { federation, crossings } = await review('pcert-hvac.ifc', 'pcert-architecture.ifc', 'pcert-structural.ifc');
    expect(federation.frame).toBe('engineering'); // all three share one map conversion
    expect(crossings.penetrations.length).toBe(1);
    const [p] = crossings.penetrations;
    expect(p).toMatchObject({
      crossing: 'through',
      skew: 45, // the roof slopes by 45 degrees, the duct is upright
      duct: { element: 'segment', shape: 'circular', diameter: 200, sectionFrom: 'mesh' },
      barrier: { kind: 'roof', rating: { state: 'unstated' } },
      opening: { from: 'hole', globalId: null },
    });
    expect(crossings.barriers.filter((b) => b.rating.text === 'REI30').map((b) => b.rating)).toEqual([
      {
        state: 'stated',
        text: 'REI30',
        loadbearing: 30,
        integrity: 30,
        insulation: 30,
        duration: null,
        from: 'occurrence',
      },
    ]);
  });

  it('the pair of the BCF cases: ducts near walls that touch none', async () => {
    const { federation, crossings } = await review('bcf-mep.ifc', 'bcf-architectural.ifc');
    expect(
      federation.models.map((m) => [m.lengthUnit, m.counts.ducts, m.counts.fittings, m.counts.unclassified]),
    ).toEqual([
      ['MILLIMETRE', 0, 0, 0],
      ['METRE', 5, 3, 0],
    ]);
    expect(federation.airElements.reduce((sum, e) => sum + e.ports.length, 0)).toBe(16);
    expect(crossings.penetrations).toEqual([]);
    expect(crossings.facingEnds).toEqual([]);
    expect(crossings.apart).toEqual([]);
  });

  it('ratings of an office: 25 walls of 1 HR, 13 of 2 HR, which name no criteria', async () => {
    const { federation } = await review('office-architecture.ifc');
    expect(ratings(federation.barriers)).toEqual({ 'durationOnly 1 HR': 25, 'durationOnly 2 HR': 13, unstated: 451 });
    expect(federation.barriers.filter((b) => b.kind === 'wall').length).toBe(487);
  });

  it('ratings on types, a placeholder and a text that is none (IDS documentation sample)', async () => {
    const { federation } = await review('type-level-ratings.ifc');
    expect(ratings(federation.barriers)).toEqual({
      'stated 120/120/120': 1,
      'stated -/-/-': 1,
      'unreadable FOOBAR': 1,
      unstated: 1,
    });
    expect(federation.barriers.filter((b) => b.rating.text !== null).map((b) => b.rating.from)).toEqual([
      'type',
      'type',
      'type',
    ]);
  });

  it('ratings of a classroom: "30 min", "n/a" and empty', async () => {
    const { federation } = await review('classroom.ifc');
    expect(ratings(federation.barriers)).toEqual({ 'durationOnly 30 min': 2, 'unreadable n/a': 1, unstated: 4 });
  });

  it('a cable ladder that is an untyped flow segment is no duct', async () => {
    const { federation } = await review('cable-ladder-shell.ifc');
    expect(federation.models[0]!.counts).toMatchObject({ ducts: 0, otherServices: 1, unclassified: 0, skipped: 0 });
  });

  it('twelve flow fittings of which three are duct fittings, by their types', async () => {
    const { federation } = await review('all-categories-feet.ifc');
    expect(federation.models[0]).toMatchObject({
      lengthUnit: 'FOOT',
      counts: { fittings: 3, otherServices: 12, ducts: 0 }, // nine other fittings, three valves
    });
  });

  it('an inch file: a flexible duct and a terminal joined by ports', async () => {
    const { federation } = await review('air-terminal-inch.ifc');
    expect(federation.models[0]).toMatchObject({ lengthUnit: 'INCH', counts: { ducts: 1, terminals: 1 } });
    const [duct] = federation.airElements.filter((e) => e.kind === 'flexible');
    expect(duct!.ports.some((p) => p.connectedTo !== undefined)).toBe(true);
  });

  it('one building in two schemas has the same walls and floors', async () => {
    const [old, young] = await Promise.all(
      ['duplex-architecture-2x3.ifc', 'duplex-architecture-ifc4.ifc'].map((f) => review(f)),
    );
    // The one roof is a roof with a body in one file and a slab of a roof in the other.
    const kinds = ({ federation }: { federation: Federation }) =>
      federation.barriers.map((b) => (b.kind === 'roof' ? 'roof' : `${b.globalId} ${b.kind}`)).sort();
    expect(kinds(young!)).toEqual(kinds(old!));
  });
});

describe.skipIf(!hasModels)(
  'every wall, slab, roof and curtain wall is read, said to be skipped, or made of others',
  () => {
    it.each(modelFiles)('%s', async (file) => {
      const { federation } = await review(file);
      const inFile = new TextDecoder('latin1')
        .decode(modelInput(file).bytes)
        .match(/=\s*IFC(WALL|WALLSTANDARDCASE|WALLELEMENTEDCASE|SLAB|SLABSTANDARDCASE|ROOF|CURTAINWALL)\s*\(/gi);
      const { counts, problems } = federation.models[0]!;
      const skipped = problems.filter(({ message }) => /^(Wall|Floor|Roof) .* was not read/.test(message)).length;
      expect(counts.barriers + counts.barriersOfParts + skipped).toBe(inFile?.length ?? 0);
      expect(counts.skipped).toBeGreaterThanOrEqual(skipped);
    });
  },
);

describe.skipIf(!hasModels)('the commands run to the end on', () => {
  const folder = temporaryFolder();
  it.each(modelFiles)('%s', (file) => {
    const check = ratedrun(folder, ['check', `${MODELS}/${file}`, '--out', file, '--quiet']);
    expect(check.err).toBe('');
    expect(check.code).toBe(3); // no file has ducts and rated walls both, so nothing fails and something can't be told
    const readiness = ratedrun(folder, ['readiness', `${MODELS}/${file}`, '--quiet']);
    expect([readiness.code, readiness.err]).toEqual([0, '']);
    expect(readiness.out).toContain(file);
  });
});
