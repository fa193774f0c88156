/**
 * Statements about real models, made by various authoring programs: buildingSMART sample files (CC BY 4.0, CC BY-ND 4.0)
 * and test files of open repositories. What is expected was read in the files themselves, not in this program's output.
 */
import { describe, expect, it } from 'vitest';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readPieces } from '../../src/find/pieces.js';
import { distance } from '../../src/geometry/vector.js';
import type { Barrier, Crossings, Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { ratedrun, temporaryFolder } from '../cli/program.js';
import { hasModels, MODELS, modelFiles, modelInput } from './shared-models.js';

interface Review {
  readonly federation: Federation;
  readonly crossings: Crossings;
}

const reviews = new Map<string, Promise<Review>>();

/** Nothing changes what was read, so that several tests may look at it. */
function review(...files: string[]): Promise<Review> {
  const known = reviews.get(files.join()) ?? reviewOnce(files);
  reviews.set(files.join(), known);
  return known;
}

async function reviewOnce(files: readonly string[]): Promise<Review> {
  const federation = await readFederation(files.map(modelInput));
  const crossings = findPenetrations(federation);
  return { federation, crossings };
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

  it('reads the axes of ducts to where their ports are, and their sheet from hollow profiles', async () => {
    const { federation } = await review('bcf-mep.ifc');
    const pieces = readPieces(federation.airElements).filter(({ element }) => element.kind === 'segment');
    expect(pieces).toHaveLength(5);
    for (const { element, straight, wall } of pieces) {
      expect(straight).toMatchObject({ from: 'profile', fit: { shape: 'circular' } });
      expect(straight!.fit.length).toBeCloseTo(300, 0);
      expect(wall.gapsTo).toBe('sheet');
      const ends = straight!.axis.map((end) => Math.min(...element.ports.map((port) => distance(port.at, end))));
      for (const off of ends) expect(off).toBeLessThan(0.2);
    }
  });

  it('compartments of an office: stairs and lifts that rated walls part from two storeys', async () => {
    const { crossings } = await review('office-architecture.ifc');
    const { compartments } = crossings;
    expect(compartments.every(({ from, barriers }) => from === 'loop' && barriers.length > 0)).toBe(true);
    const named = compartments.filter(({ spaces }) => spaces.length === 1).map(({ name }) => name);
    expect(named).toEqual(
      expect.arrayContaining(['Level 1 124 ELEV', 'Level 2 124 ELEV', 'Level 2 S201 STAIR', 'Level 2 S202 STAIR']),
    );
    expect(compartments.filter(({ name }) => / ELEV$| S20\d STAIR$/.test(name)).every(({ walled }) => walled)).toBe(
      true,
    );
    // No more than its storeys are large.
    expect(compartments.reduce((sum, { areaM2 }) => sum + (areaM2 ?? 0), 0)).toBeLessThan(2 * 1950);
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

/**
 * Flow elements counted in the text of a file, with nothing of the program: what their entity or the entity of their type
 * shows to be ductwork, to be something else, or leaves open.
 */
function flowElements(file: string) {
  const text = new TextDecoder('latin1').decode(modelInput(file).bytes);
  const lines = new Map(
    [...text.matchAll(/#(\d+)\s*=\s*(IFC\w+)\s*\(((?:[^;']|'[^']*')*)\)\s*;/g)].map((m) => [m[1]!, m]),
  );
  const typeOf = new Map<string, string>();
  for (const [, , entity, args] of lines.values()) {
    if (entity !== 'IFCRELDEFINESBYTYPE') continue;
    const [, members, type] = /\(([#\d,\s]+)\)\s*,\s*#(\d+)\s*$/.exec(args!)!;
    for (const [, id] of members!.matchAll(/#(\d+)/g)) typeOf.set(id!, lines.get(type!)![2]!);
  }
  const DUCT = /^IFC(DUCTSEGMENT|DUCTFITTING|DAMPER|DUCTSILENCER|AIRTERMINAL|AIRTERMINALBOX)(TYPE)?$/;
  const counts = { ductwork: [] as string[], open: 0 };
  for (const [id, [, , entity, args]] of lines) {
    const isDuct = DUCT.test(entity!) && !entity!.endsWith('TYPE');
    const isGeneric = /^IFCFLOW(SEGMENT|FITTING|CONTROLLER|TREATMENTDEVICE|TERMINAL)$/.test(entity!);
    const type = typeOf.get(id);
    if (isDuct || (isGeneric && type !== undefined && DUCT.test(type)))
      counts.ductwork.push(/'([^']*)'/.exec(args!)![1]!);
    // Without a type only words can tell; terminals without one are lamps and basins as a rule and are not looked for.
    else if (/^IFCFLOW(SEGMENT|FITTING|CONTROLLER)$/.test(entity!) && type === undefined) counts.open += 1;
  }
  return counts;
}

describe.skipIf(!hasModels)(
  'every duct-like element is read, or skipped with a reason, or said to be unclassified, in',
  () => {
    it.each(modelFiles)('%s', async (file) => {
      const { ductwork, open } = flowElements(file);
      const { federation } = await review(file);
      const [{ counts, problems }] = federation.models as [(typeof federation.models)[0]];
      const read = federation.airElements.map((e) => e.globalId);
      const skipped = problems.flatMap((p) =>
        p.globalId !== null && ductwork.includes(p.globalId) ? [p.globalId] : [],
      );
      expect(counts.ducts + counts.fittings + counts.dampers + counts.silencers + counts.terminals).toBe(read.length);
      // By type: each is one or the other, and neither twice.
      const byType = read.filter((id) => ductwork.includes(id));
      expect([...byType, ...skipped].sort()).toEqual([...ductwork].sort());
      // By words: ductwork, some other service, or unclassified.
      const byWords = read.length - byType.length;
      const others = federation.otherServices.length;
      expect(byWords + counts.unclassified).toBeLessThanOrEqual(open);
      expect(byWords + counts.unclassified + others).toBeGreaterThanOrEqual(open);
      // Nothing that is read holds what is no number.
      for (const { bodies } of federation.airElements)
        for (const body of bodies)
          expect(
            body.kind === 'mesh' ? body.positions.every(Number.isFinite) : body.outline.flat().every(Number.isFinite),
          ).toBe(true);
    });
  },
);

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
