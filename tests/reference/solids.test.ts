/**
 * The outside judge: a boolean intersection of solids (manifold-3d, on web-ifc's own tessellation, nothing of src/) must
 * find the same pairs of duct and barrier, and as much solid in common as section and thickness say. The barrier is
 * gross: its openings are kept apart. Every disagreement is named here with its reason; any other fails.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { CASES } from '../../fixtures/cases.js';
import { along, cross, subtract, unit, type Vec2, type Vec3, Z } from '../../fixtures/vectors.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { readFederation } from '../../src/read/read-federation.js';
import { GRAZING, TAKEN_IN } from '../../src/tolerances.js';
import { barrierName, drawPairs, ductName } from '../find/draw-pairs.js';
import { anyLooseDuct, directionOf, drawLoose, HALF, type LooseDuct } from '../find/loose-ducts.js';
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

it.each([1, 7])(
  'on 400 ducts thrown at random (seed %i): through, into, over the edge, past',
  { timeout: 120_000 },
  async (seed) => {
    const ducts = fc.sample(anyLooseDuct, { seed, numRuns: 400 });
    const judged = await judge([drawLoose(ducts, 'loose.ifc')]);
    // Contract: what runs alongside is no penetration, even where its side is set into the barrier, if not through most of it.
    const alongside = ducts.flatMap((d, i) => (runsAlongside(d) ? [`${ductName(i)} × ${barrierName(i)}`] : []));
    expect(judged.sharedOnly.filter((pair) => !alongside.includes(pair))).toEqual([]);
    // Corners that share less than what counts as contact are listed all the same: that is on the safe side.
    expect(judged.foundOnly.length).toBeLessThanOrEqual(4);
    expect(judged).toMatchObject({ throughHole: [], notJudged: [] });
    expect(judged.pairs).toBeGreaterThan(150);
    expect(judged.shared.length).toBeGreaterThan(120);
    expect(offVolumes(judged)).toEqual([]);
  },
);

/** Within GRAZING of the barrier's plane, the whole centre line beyond one face, no side through TAKEN_IN of the thickness. */
function runsAlongside(duct: LooseDuct): boolean {
  const i = duct.kind === 'wall' ? 1 : 2;
  const d = directionOf(duct);
  const [a, b] = [-1, 1].map((end) => duct.middle[i]! + (end * d[i]! * duct.length) / 2) as [number, number];
  const face = duct.thickness / 2;
  const isParallel = (Math.asin(Math.abs(d[i]!)) * 180) / Math.PI <= GRAZING;
  if (!isParallel || !((a > face && b > face) || (a < -face && b < -face))) return false;
  const side = Math.sign(a);
  const depths = linesAlong(duct).flatMap((line) => withinEdges(line, i).map((p) => face - side * p[i]!));
  return Math.max(0, ...depths) < TAKEN_IN * duct.thickness;
}

/** Lines on the duct's surface from end to end: of a rectangle through points of its edges, of a circle all round. */
function linesAlong(duct: LooseDuct): (readonly [Vec3, Vec3])[] {
  const d = directionOf(duct);
  const across = unit(cross(Z, d));
  const up = cross(d, across);
  const rim = Array.from({ length: 720 }, (_, k): Vec2 => {
    const [c, s] = [Math.cos((k * Math.PI) / 360), Math.sin((k * Math.PI) / 360)];
    if (duct.round) return [(c * duct.width) / 2, (s * duct.width) / 2];
    const out = Math.max(Math.abs(c), Math.abs(s));
    return [(c * duct.width) / out / 2, (s * duct.height) / out / 2];
  });
  return rim.map(([x, y]) => {
    const middle = along(along(duct.middle, across, x), up, y);
    return [along(middle, d, -duct.length / 2), along(middle, d, duct.length / 2)] as const;
  });
}

/** The ends of what lies within the edges of the barrier, which is 3 m wide and high; nothing where none does. */
function withinEdges([from, to]: readonly [Vec3, Vec3], normal: 1 | 2): Vec3[] {
  let [first, last] = [0, 1];
  for (const j of [0, 1, 2].filter((axis) => axis !== normal)) {
    const [start, run] = [from[j]!, to[j]! - from[j]!];
    const [s, t] = [(-HALF - start) / run, (HALF - start) / run];
    [first, last] = [Math.max(first, Math.min(s, t)), Math.min(last, Math.max(s, t))];
  }
  return first < last ? [first, last].map((t) => along(from, subtract(to, from), t)) : [];
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
