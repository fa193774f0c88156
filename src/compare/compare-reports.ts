/** Two reports in, what lies between them out: penetrations and findings, each with what became of it. */

import { distance } from '../geometry/vector.js';
import { penetrationPlace } from '../report/place-words.js';
import type { Report, ReportPenetration } from '../report/schema.js';
import { UNMOVED } from '../tolerances.js';
import { differenceNotes } from '../words/comparison.js';
import { compareFindings } from './compare-findings.js';
import { listsAll } from './finding-changes.js';
import { type Match, matchPenetrations } from './match.js';
import { changesBetween } from './penetration-changes.js';
import {
  type ComparedPenetration,
  type Comparison,
  comparisonSchema,
  FINDING_STATUSES,
  PENETRATION_STATUSES,
} from './schema.js';

export function compareReports(before: Report, after: Report): Comparison {
  const matches = matchPenetrations(after.penetrations, before.penetrations);
  const known = new Set([...matches.values()].map((match) => match.before));
  const penetrations = [
    ...after.penetrations.map((p) => compared(p, matches.get(p))),
    ...before.penetrations.filter((p) => !known.has(p)).map(absent),
  ];
  const findings = compareFindings(before, after, matches);
  return comparisonSchema.parse({
    format: 'ratedrun-comparison',
    version: 1,
    before: reviewOf(before),
    after: reviewOf(after),
    notes: differenceNotes(before, after, listsAll(before) !== listsAll(after)),
    summary: {
      penetrations: counts(penetrations, PENETRATION_STATUSES),
      inferred: penetrations.filter(({ inferred }) => inferred).length,
      findings: counts(findings, FINDING_STATUSES),
    },
    penetrations: sortedBy(penetrations, PENETRATION_STATUSES),
    findings: sortedBy(findings, FINDING_STATUSES),
  } satisfies Comparison);
}

function compared(after: ReportPenetration, match: Match<ReportPenetration> | undefined): ComparedPenetration {
  const common = { after: after.id, place: penetrationPlace(after) };
  if (!match) {
    const { tag, key } = after;
    const outcome = { before: null, after: after.outcome };
    return { status: 'new', tag, tagNow: null, key, inferred: false, before: null, ...common, ...NOTHING, outcome };
  }
  const { before } = match;
  const step = distance(before.position, after.position);
  const moved = step > UNMOVED ? Number(step.toFixed(1)) : null;
  const changes = changesBetween(before, after);
  return {
    status: changes.length > 0 ? 'changed' : moved !== null ? 'moved' : 'unchanged',
    tag: before.tag,
    tagNow: after.tag === before.tag ? null : after.tag,
    key: before.key,
    inferred: match.inferred,
    before: before.id,
    ...common,
    moved,
    changes,
    outcome: { before: before.outcome, after: after.outcome },
  };
}

const NOTHING = { moved: null, changes: [] } as const;

function absent(before: ReportPenetration): ComparedPenetration {
  const { tag, key, id } = before;
  const outcome = { before: before.outcome, after: null };
  const gone = { status: 'absent', tag, tagNow: null, key, inferred: false, before: id, after: null } as const;
  return { ...gone, place: penetrationPlace(before), ...NOTHING, outcome };
}

const reviewOf = ({ revision, createdAt, tool, demonstration, models }: Report): Comparison['before'] => ({
  ...{ revision, createdAt, tool, demonstration },
  files: models.map(({ file }) => file),
});

function counts<S extends string>(
  list: readonly { readonly status: S }[],
  statuses: readonly S[],
): { readonly [status in S]: number } {
  const count = (status: S) => list.filter((one) => one.status === status).length;
  return Object.fromEntries(statuses.map((status) => [status, count(status)])) as { [status in S]: number };
}

/** Sorting keeps the order of the reports within each status. */
const sortedBy = <S extends string, T extends { readonly status: S }>(
  list: readonly T[],
  statuses: readonly S[],
): T[] => [...list].sort((a, b) => statuses.indexOf(a.status) - statuses.indexOf(b.status));
