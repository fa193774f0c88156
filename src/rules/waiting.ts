import { fileUnder } from '../collect.js';
import type { Candidate } from './finding.js';

/** Several cantTells for one missing fact are shown once, where the fact is missing. */
export interface Waiting {
  /** What need not be listed, because other findings say all of it. */
  readonly hidden: ReadonlySet<Candidate>;
  /** Ids of the penetrations that wait for what a barrier's finding lacks. */
  readonly penetrations: ReadonlyMap<Candidate, ReadonlySet<string>>;
}

export function waitingFor(candidates: readonly Candidate[]): Waiting {
  const hidden = new Set<Candidate>();
  const penetrations = new Map<Candidate, Set<string>>();
  const said = new Map<string, Candidate[]>();
  for (const candidate of candidates.filter(lacksFacts).sort(byPlace)) {
    const awaited = awaitedFindings(
      candidate,
      placesOf(candidate).flatMap((place) => said.get(place) ?? []),
    );
    if (awaited.length === 0) {
      const place = ownPlace(candidate);
      if (place !== null) fileUnder(said, place, candidate);
      continue;
    }
    hidden.add(candidate);
    for (const finding of awaited) {
      penetrations.set(finding, new Set([...(penetrations.get(finding) ?? []), ...candidate.subject.penetrations]));
    }
  }
  return { hidden, penetrations };
}

const lacksFacts = ({ verdict }: Candidate): boolean =>
  verdict.outcome === 'cantTell' && verdict.problem === null && verdict.missing.length > 0;

/**
 * The models first, then barriers, then penetrations and runs. Where it is not even known whether a check applies, it has little
 * to say about the fact, so it speaks last. Otherwise in the order of the documents: sorting keeps it.
 */
const byPlace = (a: Candidate, b: Candidate): number => rankOf(a) - rankOf(b);

function rankOf({ check, verdict }: Candidate): number {
  if (check.each === 'model') return 0;
  if (check.each === 'barrier') return 1;
  return verdict.open === 'applies' ? 3 : 2;
}

/** Where a finding may stand that speaks for others; one face speaks for the other. Gaps, pairs and ends speak for themselves alone. */
function ownPlace({ check, subject }: Candidate): string | null {
  if (check.each === 'model') return MODEL;
  if (check.each === 'barrier') return `barrier ${subject.barrier}`;
  if (subject.airway !== null) return `airway ${subject.airway}`;
  return check.each === 'penetration' || check.each === 'face' ? `penetration ${subject.penetrations[0]}` : null;
}

/** The facts of a pair are those of its first penetration. */
const placesOf = ({ check, subject }: Candidate): string[] =>
  check.each === 'model' || check.each === 'barrier'
    ? []
    : subject.airway !== null
      ? [MODEL, `airway ${subject.airway}`, ...subject.penetrations.map((id) => `penetration ${id}`)]
      : [MODEL, `barrier ${subject.barrier}`, `penetration ${subject.penetrations[0]}`];

const MODEL = 'model';

/** The findings that together name all the candidate lacks; none when something would go unsaid. */
function awaitedFindings(waiting: Candidate, findings: readonly Candidate[]): Candidate[] {
  const covering = waiting.verdict.missing.map((fact) => findings.filter((finding) => covers(finding, fact, waiting)));
  return covering.every((some) => some.length > 0) ? [...new Set(covering.flat())] : [];
}

/** That no barrier at all is rated does not say it of one; only choices of the brief are made for all at once. */
const covers = ({ check, verdict, subject }: Candidate, fact: string, waiting: Candidate): boolean =>
  verdict.missing.some(
    (missing) =>
      // What is missing of one face may be known of the other.
      (!missing.startsWith('face.') || subject.key === waiting.subject.key) &&
      (check.each !== 'model' || missing.startsWith('brief.')) &&
      (check.each !== 'barrier' || missing.startsWith('barrier.')) &&
      (fact === missing || fact.startsWith(`${missing}.`)),
  );
