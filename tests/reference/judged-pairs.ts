/**
 * Puts a review beside the judges of solids.ts: which pairs of a duct and a barrier share solid, by whom, and how much.
 */
import type { Manifold } from 'manifold-3d';
import type { Crossings, Federation, Penetration } from '../../src/model.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { hullOf, type RawElement, rawElements, solidOf } from './solids.js';

/** Shared solids smaller than this are contact: 100 by 100 mm, 1 mm deep, which is as deep as touching elements are drawn. */
export const TOUCH = 10_000;

export interface Judged {
  /** Pairs of names that share more than contact. */
  readonly shared: readonly string[];
  /** Pairs that a penetration joins: each of its pieces of ductwork with each of its leaves. */
  readonly found: readonly string[];
  /** In `found` only: without and with the barrier's own holes filled by its hull. */
  readonly foundOnly: readonly string[];
  readonly throughHole: readonly string[];
  /** In `shared` only. */
  readonly sharedOnly: readonly string[];
  /** Pairs whose hulls meet but whose surfaces are not closed, so that there is nothing to intersect. */
  readonly notJudged: readonly string[];
  /** Whose boxes meet. */
  readonly pairs: number;
  /** Where one straight duct passes one barrier: what is shared, against section · thickness / cos(skew). */
  readonly volumes: readonly { readonly pair: string; readonly shared: number; readonly expected: number }[];
}

export function judgePairs(files: readonly ModelInput[], federation: Federation, crossings: Crossings): Judged {
  const ids = new Set([...federation.airElements, ...federation.barriers].map((e) => e.globalId));
  const raw = new Map(
    federation.models.map((m) => [m.id, rawElements(files.find((f) => f.name === m.file)!.bytes, ids)]),
  );
  const rawOf = ({ model, globalId }: { model: string; globalId: string }) => raw.get(model)?.get(globalId);
  const nameOf = (ref: { model: string; globalId: string }) =>
    [...federation.airElements, ...federation.barriers].find(
      (e) => e.model === ref.model && e.globalId === ref.globalId,
    )!.name;
  const pairName = (p: Parameters<typeof nameOf>[0], q: Parameters<typeof nameOf>[0]) => `${nameOf(p)} × ${nameOf(q)}`;
  const shared: string[] = [];
  const notJudged: string[] = [];
  const inHull = new Set<string>();
  const volumes = new Map<string, number>();
  let pairs = 0;
  for (const duct of federation.airElements)
    for (const barrier of federation.barriers) {
      const [d, b] = [rawOf(duct), rawOf(barrier)];
      if (!d || !b || !boxesMeet(d, b)) continue;
      pairs++;
      const pair = pairName(duct, barrier);
      const isStraight = duct.kind === 'segment' || duct.kind === 'flexible';
      const ofHulls = sharedVolume(hullOf(d, b.min), hullOf(b, b.min));
      if (ofHulls <= TOUCH) continue;
      inHull.add(pair);
      const [through, wall] = [isStraight ? hullOf(d, b.min) : solidOf(d, b.min), solidOf(b, b.min)];
      if (!through || !wall) {
        notJudged.push(pair);
        continue;
      }
      const volume = sharedVolume(through, wall);
      volumes.set(pair, volume);
      if (volume > TOUCH) shared.push(pair);
    }
  const found = crossings.penetrations.flatMap((p) =>
    p.elements.flatMap((e) => [p.barrier, ...p.barrier.leaves].map((b) => pairName(e, b))),
  );
  const foundOnly = [...new Set(found)].filter((p) => !shared.includes(p) && !notJudged.includes(p)).sort();
  return {
    shared: [...new Set(shared)].sort(),
    found: [...new Set(found)].sort(),
    foundOnly: foundOnly.filter((p) => !inHull.has(p)),
    throughHole: foundOnly.filter((p) => inHull.has(p)),
    sharedOnly: [...new Set(shared)].filter((p) => !found.includes(p)).sort(),
    notJudged: [...new Set(notJudged)].sort(),
    pairs,
    volumes: crossings.penetrations.flatMap((p) => {
      const pair = pairName(p.duct, p.barrier);
      const expected = throughVolume(p);
      const once = crossings.penetrations.filter((q) => pairName(q.duct, q.barrier) === pair).length === 1;
      const actual = volumes.get(pair);
      return once && expected !== undefined && actual !== undefined && actual > 0
        ? [{ pair, shared: actual, expected }]
        : [];
    }),
  };
}

const boxesMeet = (a: RawElement, b: RawElement): boolean =>
  [0, 1, 2].every((i) => a.min[i]! <= b.max[i]! && b.min[i]! <= a.max[i]!);

/** mm³; the two are used up. */
function sharedVolume(a: Manifold, b: Manifold): number {
  const common = a.intersect(b);
  const volume = common.volume();
  for (const solid of [a, b, common]) solid.delete();
  return volume;
}

/** mm³; undefined where the crossing is not one straight duct through one plain barrier. */
function throughVolume(p: Penetration): number | undefined {
  const { width, height, diameter, shape } = p.duct;
  if (p.crossing !== 'through' || p.elements.length !== 1 || p.barrier.leaves.length > 0) return undefined;
  if (p.barrier.thickness === null || p.duct.axis === null || shape === 'unknown') return undefined;
  const section =
    diameter !== null ? (Math.PI / 4) * diameter ** 2 : shape === 'oval' ? ovalArea(width!, height!) : width! * height!;
  return (section * p.barrier.thickness) / Math.cos((p.skew * Math.PI) / 180);
}

function ovalArea(width: number, height: number): number {
  const [long, short] = [Math.max(width, height), Math.min(width, height)];
  return (long - short) * short + (Math.PI / 4) * short ** 2;
}
