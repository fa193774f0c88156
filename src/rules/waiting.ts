import type { Candidate } from './finding.js';

/** Several cantTells for one missing fact are shown once, where the fact is missing: at the barrier. */
export interface Waiting {
  /** What need not be listed, because the barrier's own finding says it. */
  readonly hidden: ReadonlySet<Candidate>;
  /** Ids of the penetrations that wait for what a barrier's finding lacks. */
  readonly penetrations: ReadonlyMap<Candidate, ReadonlySet<string>>;
}

export function waitingFor(candidates: readonly Candidate[]): Waiting {
  const lacking = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const { check, subject, verdict } = candidate;
    if (check.each !== 'barrier' || verdict.outcome !== 'cantTell' || subject.barrier === null) continue;
    lacking.set(subject.barrier, [...(lacking.get(subject.barrier) ?? []), candidate]);
  }
  const hidden = new Set<Candidate>();
  const penetrations = new Map<Candidate, Set<string>>();
  for (const candidate of candidates) {
    const at = candidate.subject.barrier === null ? undefined : lacking.get(candidate.subject.barrier);
    const awaited = at && waitsForFacts(candidate) ? awaitedFindings(candidate, at) : [];
    if (awaited.length === 0) continue;
    hidden.add(candidate);
    for (const finding of awaited) {
      penetrations.set(finding, new Set([...(penetrations.get(finding) ?? []), ...candidate.subject.penetrations]));
    }
  }
  return { hidden, penetrations };
}

const waitsForFacts = ({ check, verdict }: Candidate): boolean =>
  check.each !== 'barrier' && verdict.outcome === 'cantTell' && verdict.problem === null && verdict.missing.length > 0;

/** The barrier's findings that together name all the candidate lacks; none when something would go unsaid. */
function awaitedFindings({ verdict }: Candidate, findings: readonly Candidate[]): Candidate[] {
  const covers = (finding: Candidate, fact: string): boolean =>
    finding.verdict.missing.some((missing) => fact === missing || fact.startsWith(`${missing}.`));
  const said = verdict.missing.every((fact) => findings.some((finding) => covers(finding, fact)));
  return said ? findings.filter((finding) => verdict.missing.some((fact) => covers(finding, fact))) : [];
}
