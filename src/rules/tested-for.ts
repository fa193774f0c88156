/** What the tested systems have for each penetration, in the form of the report. */
import { compareTexts } from '../collect.js';
import { resistsFire } from '../fire-rating/index.js';
import type { Crossings, Penetration, ScopeLine, TestedDetail, TestedFor } from '../model.js';
import { counted } from '../words/text.js';
import { type Candidate, isBuilt } from './candidates.js';
import { layersThere } from './detail-facts.js';
import { factAt, isGroup } from './fact-schema.js';
import { fittingAt } from './fitting.js';
import { originOf } from './origins.js';
import type { Choice } from './own-facts.js';
import { LINE_KINDS } from './scope-line-kinds.js';
import type { ScopeLine as Line } from './scope-lines.js';
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
  const printed = (lines: readonly Line[]) => lines.map((line) => lineOf(line, penetration));
  // Of what is not passed through, or needs no rating, nothing is asked.
  const isConcerned = penetration.crossing === 'through' && resistsFire(penetration.barrier.rating) !== false;
  const { feasible, nearest } = isConcerned ? fittingAt(facts, systems) : { feasible: [], nearest: [] };
  const isApplied = candidate?.own.applied === true;
  return {
    penetration: penetration.id,
    chosen:
      candidate && isApplied && isConcerned
        ? {
            ...detailOf(candidate, penetration),
            by: chosen.settled ? 'brief' : 'review',
            scope: printed(candidate.lines),
          }
        : null,
    feasible: feasible.map((one) => detailOf(one, penetration)),
    nearest: nearest.map((one) => ({
      ...detailOf(one, penetration),
      misses: printed(one.misses),
      unknown: printed(one.unknown),
    })),
  };
}

function detailOf({ system, detail, fixing, facts, lines, material }: Candidate, at: Penetration): TestedDetail {
  const tightest = lines
    .filter(isBuilt)
    .reduce<Line | undefined>(
      (least, line) => (least === undefined || line.relative! < least.relative! ? line : least),
      undefined,
    );
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
