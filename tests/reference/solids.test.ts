/**
 * The outside judge: a boolean intersection of solids (manifold-3d, on web-ifc's own tessellation, nothing of src/) must
 * find the same pairs of duct and barrier, and as much solid in common as section and thickness say. The barrier is
 * gross: its openings are kept apart. Every disagreement is named here with its reason; any other fails.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { CASES } from '../../fixtures/cases.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { readFederation } from '../../src/read/read-federation.js';
import { GRAZING } from '../../src/tolerances.js';
import { barrierName, drawPairs, ductName } from '../find/draw-pairs.js';
import { anyLooseDuct, directionOf, drawLoose, type LooseDuct } from '../find/loose-ducts.js';
import { anyPair, type Pair } from '../find/pairs.js';
import { type Judged, judgePairs } from './judged-pairs.js';
import { hasModels, modelInput } from './shared-models.js';
import { startJudges } from './solids.js';

/** Shared solid and section · thickness / cos(skew) agree within this share; chords of a mesh may take more. */
const VOLUME = 0.01;

beforeAll(startJudges);

async function judge(files: readonly ModelInput[]): Promise<Judged> {
  const federation = await readFederation(files);
  return judgePairs(files, federation, findPenetrations(federation));
}

const nothing = { foundOnly: [], throughHole: [], sharedOnly: [], notJudged: [] };
const offVolumes = ({ volumes }: Judged, share = (_: string) => VOLUME) =>
  volumes.filter(({ pair, shared, expected }) => Math.abs(shared / expected - 1) > share(pair));

describe('on the generated cases', () => {
  const BY_MAP = 'the files stand together on the map only, and web-ifc knows no map conversion';
  const OWN_HOLE = "the hole is part of the wall's body, so that no solid is shared until it is filled";
  const DISAGREE: Readonly<Record<string, readonly [Partial<Judged>, string]>> = {
    'map-conversions': [{ foundOnly: ['Duct A × Wall A'] }, BY_MAP],
    'map-conversions-in-metres': [{ foundOnly: ['Duct A × Wall A'] }, BY_MAP],
    'hole-in-profile': [{ throughHole: ['Duct A × Wall A'] }, OWN_HOLE],
    'hole-in-mesh': [{ throughHole: ['Duct A × Wall A'] }, OWN_HOLE],
    'hole-in-mesh-ifc2x3': [{ throughHole: ['Duct A × Wall A'] }, OWN_HOLE],
    'round-hole-in-profile': [{ throughHole: ['Duct A × Wall A'] }, OWN_HOLE],
    'curved-hole-in-mesh': [{ throughHole: ['Duct A × Wall A'] }, OWN_HOLE],
    'curved-radial-hole-in-mesh': [{ throughHole: ['Duct A × Wall A'] }, OWN_HOLE],
  };
  it.each(CASES.map((c) => [c.name, c.files] as const))('%s', async (name, files) => {
    const encoder = new TextEncoder();
    const judged = await judge(files.map((f) => ({ name: f.name, bytes: encoder.encode(f.text) })));
    expect(judged).toMatchObject({ ...nothing, ...DISAGREE[name]?.[0] });
    expect(offVolumes(judged)).toEqual([]);
  });
});

/** Place, turn and unit as most files have them; far-off origins are for the closed forms. */
const FILE = { schema: 'IFC4', unit: 'metre', rotation: 17.5, offset: [1000, 2000, 0], movedBy: 'site' } as const;
const numberIn = (pair: string): number => Number(/\d+/.exec(pair)![0]);

it('on 200 random ducts right through barriers', { timeout: 120_000 }, async () => {
  const pairs = fc.sample(anyPair, { seed: 4, numRuns: 200 });
  const judged = await judge([drawPairs(pairs, FILE)]);
  const withHole = pairs.flatMap((p, i) => (p.opening === 'hole' ? [`${ductName(i)} × ${barrierName(i)}`] : []));
  expect(judged).toMatchObject({ ...nothing, throughHole: withHole.sort(), pairs: 200 });
  expect(judged.volumes.length).toBe(200 - withHole.length);
  expect(offVolumes(judged, (pair) => Math.max(VOLUME, chordShare(pairs[numberIn(pair)]!)))).toEqual([]);
});

/** Share of a circle that a polygon with its corners on it leaves out: 1 − sin(2π/n) / (2π/n). */
function chordShare({ body, shape, corners }: Pair): number {
  const step = (2 * Math.PI) / corners;
  return body === 'mesh' && shape !== 'rectangle' ? 1 - Math.sin(step) / step : 0;
}

it('on 400 ducts thrown at random: through, into, over the edge, past', { timeout: 120_000 }, async () => {
  const ducts = fc.sample(anyLooseDuct, { seed: 1, numRuns: 400 });
  const judged = await judge([drawLoose(ducts, 'loose.ifc')]);
  // Contract: what runs alongside is no penetration, even where its side is set into the barrier.
  const alongside = ducts.flatMap((d, i) => (runsAlongside(d) ? [`${ductName(i)} × ${barrierName(i)}`] : []));
  expect(judged.sharedOnly.filter((pair) => !alongside.includes(pair))).toEqual([]);
  // Corners that share less than what counts as contact are listed all the same: that is on the safe side.
  expect(judged.foundOnly.length).toBeLessThanOrEqual(4);
  expect(judged).toMatchObject({ throughHole: [], notJudged: [] });
  expect(judged.pairs).toBeGreaterThan(150);
  expect(judged.shared.length).toBeGreaterThan(120);
  expect(offVolumes(judged)).toEqual([]);
});

/** Within GRAZING of the barrier's plane, and the whole centre line beyond one face. */
function runsAlongside(duct: LooseDuct): boolean {
  const i = duct.kind === 'wall' ? 1 : 2;
  const slope = directionOf(duct)[i]!;
  const [a, b] = [-1, 1].map((end) => duct.middle[i]! + (end * slope * duct.length) / 2) as [number, number];
  const face = duct.thickness / 2;
  const isParallel = (Math.asin(Math.abs(slope)) * 180) / Math.PI <= GRAZING;
  return isParallel && ((a > face && b > face) || (a < -face && b < -face));
}

describe.skipIf(!hasModels)('on real models', () => {
  it('the house in three files: the duct goes through a hole that is part of the mesh of the roof slab', async () => {
    const judged = await judge(['pcert-hvac.ifc', 'pcert-architecture.ifc', 'pcert-structural.ifc'].map(modelInput));
    const throughHole = ['building element × house - roof - slab right'];
    expect(judged).toMatchObject({ ...nothing, throughHole, shared: [], pairs: 4 });
  });

  it('the pair of the BCF cases: boxes meet, solids do not', async () => {
    const judged = await judge(['bcf-mep.ifc', 'bcf-architectural.ifc'].map(modelInput));
    expect(judged).toMatchObject({ ...nothing, shared: [], pairs: 3 });
  });

  it.each([
    'air-terminal-inch.ifc',
    'all-categories-feet.ifc',
    'classroom.ifc',
    'duplex-architecture-2x3.ifc',
    'duplex-architecture-ifc4.ifc',
    'house-feet.ifc',
    'office-architecture.ifc',
    'type-level-ratings.ifc',
    'cable-ladder-shell.ifc',
  ])('%s alone has no ductwork near a barrier', async (file) => {
    expect(await judge([modelInput(file)])).toMatchObject({ ...nothing, shared: [], found: [], pairs: 0 });
  });
});
