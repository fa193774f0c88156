/** What the tested systems have for each penetration, in the form of the report. */
import { compareTexts } from '../collect.js';
import { resistsFire } from '../fire-rating/index.js';
import type { BuiltAs, Crossings, Penetration, ScopeLine, TestedDetail, TestedFor } from '../model.js';
import { counted } from '../words/text.js';
import { builtAs } from './built-parts.js';
import type { Candidate } from './candidates.js';
import { layersThere } from './detail-facts.js';
import { factAt, isGroup } from './fact-schema.js';
import { sheetSize } from './facts.js';
import { fittingAt } from './fitting.js';
import { originOf } from './origins.js';
import type { Choice } from './own-facts.js';
import { LINE_KINDS } from './scope-line-kinds.js';
import { isBuilt, type ScopeLine as Line, scopeLines } from './scope-lines.js';
import type { Tested } from './system-facts.js';
import type { TestedSystem } from './tested-system.js';

/** By the ids of the penetrations. @param systems those that may be used */
export function testedFor(
  { penetrations }: Crossings,
  choices: ReadonlyMap<string, Choice>,
  systems: readonly TestedSystem[],
): ReadonlyMap<string, TestedFor> {
  const inOrder = [...penetrations].sort((a, b) => compareTexts(a.id, b.id));
  return new Map(inOrder.map((one) => [one.id, testedAt(one, choices.get(one.id)!, systems)]));
}

function testedAt(penetration: Penetration, { facts, chosen }: Choice, systems: readonly TestedSystem[]): TestedFor {
  const { candidate } = chosen;
  // Of what is not passed through, or needs no rating, nothing is asked.
  const isConcerned = penetration.crossing === 'through' && resistsFire(penetration.barrier.rating) !== false;
  const isApplied = chosen.system.applied === true;
  const { feasible, nearest } = isConcerned ? fittingAt(facts, systems) : { feasible: [], nearest: [] };
  const told = (one: Candidate): Told => {
    const lines = scopeLines(one, one.facts);
    return { detail: detailOf(one, lines, penetration), lines: lines.map((line) => lineOf(line, penetration)) };
  };
  return {
    penetration: penetration.id,
    chosen:
      candidate && isApplied && isConcerned
        ? {
            ...chosenAs(told(candidate), chosen.settled),
            ...builtAs(candidate.system, candidate.detail, sheetSize(penetration.duct)),
          }
        : null,
    feasible: feasible.map((one) => told(one).detail),
    nearest: nearest.map(told).map(({ detail, lines }) => {
      const that = (wanted: ScopeLine['outcome']) => lines.filter(({ outcome }) => outcome === wanted);
      return { ...detail, misses: that('missed'), unknown: that('unknown') };
    }),
  };
}

interface Told {
  readonly detail: TestedDetail;
  readonly lines: readonly ScopeLine[];
}

const chosenAs = (
  { detail, lines }: Told,
  isSettled: boolean,
): Omit<NonNullable<TestedFor['chosen']>, keyof BuiltAs> => ({
  ...detail,
  by: isSettled ? 'brief' : 'review',
  scope: lines,
});

function detailOf(candidate: Candidate, lines: readonly Line[], at: Penetration): TestedDetail {
  const { system, detail, fixing, facts, material } = candidate;
  const tightest = tightestOf(lines);
  const layers = layersThere(system.protection, facts) ?? null;
  return {
    title: titleOf({ system, detail, fixing }, layers),
    source: system.source,
    system: system.id,
    detail: detail?.id ?? null,
    status: system.status,
    fixing: fixing?.id ?? null,
    layers,
    material: material === undefined ? null : Number(material.toFixed(1)),
    tightest: tightest ? lineOf(tightest, at) : null,
  };
}

/** Of what is built, the first with the least margin. */
const tightestOf = (lines: readonly Line[]): Line | undefined =>
  lines
    .filter((line) => isBuilt(line) && line.relative !== undefined)
    .reduce<Line | undefined>((least, line) => (least && least.relative! <= line.relative! ? least : line), undefined);

function titleOf({ system, detail, fixing }: Tested, layers: number | null): string {
  const more = [
    detail?.name ?? 'no detail for this barrier',
    ...(fixing ? [`held by ${fixing.name}`] : []),
    ...(system.protection === 'fireResistingDuct' || layers === null ? [] : [counted(layers, 'layer')]),
  ];
  return `${system.name}: ${more.join(', ')}`;
}

function lineOf({ name, fact, unit, measured, limit, met, margin, source }: Line, at: Penetration): ScopeLine {
  const kind = KINDS.get(name)!;
  const entry = factAt(fact);
  return {
    name,
    check: kind.check,
    what: kind.what ?? (entry && !isGroup(entry) ? entry.says : fact),
    unit: unit ?? null,
    measured: measured ?? null,
    from: originOf(fact, at),
    limit: limit ?? null,
    outcome: met === undefined ? 'unknown' : met ? 'met' : 'missed',
    margin: margin ?? null,
    source,
  };
}

const KINDS = new Map(LINE_KINDS.map((kind) => [kind.name, kind]));
