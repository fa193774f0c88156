import { fileUnder } from '../collect.js';
import type { Result } from './finding.js';

/** Several cantTells for one missing fact are shown once, where the fact is missing. */
export interface Waiting {
  /** What need not be listed, because other findings say all of it. */
  readonly hidden: ReadonlySet<Result>;
  /** Ids of the penetrations that wait for what a barrier's finding lacks. */
  readonly penetrations: ReadonlyMap<Result, ReadonlySet<string>>;
}

export function waitingFor(results: readonly Result[]): Waiting {
  const hidden = new Set<Result>();
  const penetrations = new Map<Result, Set<string>>();
  const said = new Map<string, Result[]>();
  for (const result of results.filter(lacksFacts).sort(byPlace)) {
    const awaited = awaitedFindings(
      result,
      placesOf(result).flatMap((place) => said.get(place) ?? []),
    );
    if (awaited.length === 0) {
      const place = ownPlace(result);
      if (place !== null) fileUnder(said, place, result);
      continue;
    }
    hidden.add(result);
    for (const finding of awaited) {
      penetrations.set(finding, new Set([...(penetrations.get(finding) ?? []), ...result.about.penetrations]));
    }
  }
  return { hidden, penetrations };
}

const lacksFacts = ({ verdict }: Result): boolean =>
  verdict.outcome === 'cantTell' && verdict.problem === null && verdict.missing.length > 0;

/**
 * The models first, then barriers, then penetrations and runs. Where it is not even known whether a check applies, it has little
 * to say about the fact, so it speaks last. Otherwise in the order of the documents: sorting keeps it.
 */
const byPlace = (a: Result, b: Result): number => rankOf(a) - rankOf(b);

function rankOf({ rule, verdict }: Result): number {
  if (rule.each === 'model') return 0;
  if (rule.each === 'barrier') return 1;
  return verdict.open === 'applies' ? 3 : 2;
}

/** Where a finding may stand that speaks for others; one face speaks for the other. Gaps, pairs and ends speak for themselves alone. */
function ownPlace({ rule, about }: Result): string | null {
  if (rule.each === 'model') return MODEL;
  if (rule.each === 'barrier') return `barrier ${about.barrier}`;
  if (about.airway !== null) return `airway ${about.airway}`;
  return rule.each === 'penetration' || rule.each === 'face' ? `penetration ${about.penetrations[0]}` : null;
}

/** The facts of a pair are those of its first penetration. */
const placesOf = ({ rule, about }: Result): string[] =>
  rule.each === 'model' || rule.each === 'barrier'
    ? []
    : about.airway !== null
      ? [MODEL, `airway ${about.airway}`, ...about.penetrations.map((id) => `penetration ${id}`)]
      : [MODEL, `barrier ${about.barrier}`, `penetration ${about.penetrations[0]}`];

const MODEL = 'model';

/** The findings that together name all the result lacks; none when something would go unsaid. */
function awaitedFindings(waiting: Result, findings: readonly Result[]): Result[] {
  const covering = waiting.verdict.missing.map((fact) => findings.filter((finding) => covers(finding, fact, waiting)));
  return covering.every((some) => some.length > 0) ? [...new Set(covering.flat())] : [];
}

/** That no barrier at all is rated does not say it of one; only choices of the brief are made for all at once. */
const covers = ({ rule, verdict, about }: Result, fact: string, waiting: Result): boolean =>
  verdict.missing.some(
    (missing) =>
      // What is missing of one face may be known of the other.
      (!missing.startsWith('face.') || about.key === waiting.about.key) &&
      (rule.each !== 'model' || missing.startsWith('brief.')) &&
      (rule.each !== 'barrier' || missing.startsWith('barrier.')) &&
      (fact === missing || fact.startsWith(`${missing}.`)),
  );
