/** Which findings speak about which penetration, and what they come to together. */
import { fileUnder } from '../collect.js';
import type { BarrierFacts, CheckResult, ElementRef, Finding, Outcome, Penetration } from '../model.js';
import type { OutcomeCounts, Report, ReportFinding } from './schema.js';

export type PenetrationCounts = OutcomeCounts & { readonly wouldPass: number };
export interface PenetrationVerdict {
  readonly outcome: Outcome;
  readonly outcomes: PenetrationCounts;
}

/** The parts of a penetration that tell where a finding belongs; both the model's and the report's have them. */
type Located = Pick<Penetration, 'id' | 'elements' | 'neighbours'> & {
  readonly barrier: Pick<BarrierFacts, 'model' | 'globalId' | 'leaves'>;
  readonly opening: { readonly model: string; readonly globalId: string | null } | null;
};

const keyOf = (ref: ElementRef): string => `${ref.model}/${ref.globalId}`;

/**
 * Gives the penetrations that a finding speaks about, its own one first; or all of a barrier, an opening or a duct
 * element. Findings on runs and models speak about no penetration in particular.
 */
export function relate<P extends Located>(
  penetrations: readonly P[],
): (finding: Pick<Finding, 'subject'>) => readonly P[] {
  const byId = new Map(penetrations.map((p) => [p.id, p]));
  const at = { barrier: new Map<string, P[]>(), opening: new Map<string, P[]>(), duct: new Map<string, P[]>() };
  for (const p of penetrations) {
    for (const ref of [p.barrier, ...p.barrier.leaves]) fileUnder(at.barrier, keyOf(ref), p);
    for (const ref of p.elements) fileUnder(at.duct, keyOf(ref), p);
    const { opening } = p;
    if (opening && opening.globalId !== null)
      fileUnder(at.opening, keyOf({ ...opening, globalId: opening.globalId }), p);
  }
  return ({ subject }) => {
    if (subject.type === 'run' || subject.type === 'model') return [];
    if (subject.type === 'penetration') {
      const own = byId.get(subject.id);
      return own ? [own, ...neighboursIn(subject.elements, own, byId)] : [];
    }
    const index = at[subject.type];
    const found = subject.elements.map((ref) => index.get(keyOf(ref)));
    // A finding on a barrier that names ducts as well is about that place, not about all that passes the barrier.
    if (subject.type === 'barrier' && found.includes(undefined)) return [];
    return [...new Set(found.flatMap((list) => list ?? []))];
  };
}

/** The neighbours of a penetration whose ducts are among the elements: a finding on two ducts names both. */
function neighboursIn<P extends Located>(
  elements: readonly ElementRef[],
  own: P,
  byId: ReadonlyMap<string, P>,
): readonly P[] {
  const others = new Set(elements.map(keyOf));
  for (const ref of own.elements) others.delete(keyOf(ref));
  return own.neighbours
    .map((neighbour) => byId.get(neighbour.penetration))
    .filter((p) => p?.elements.some((ref) => others.has(keyOf(ref))))
    .filter((p) => p !== undefined);
}

/** The listed findings that speak about each penetration, by its id, in the report's order. */
export function findingsByPenetration(report: Report): ReadonlyMap<string, readonly ReportFinding[]> {
  const concerned = relate(report.penetrations);
  const found = new Map<string, ReportFinding[]>();
  for (const finding of report.findings) for (const { id } of concerned(finding)) fileUnder(found, id, finding);
  return found;
}

/**
 * The verdict on every penetration, by its id.
 *
 * @param complete false when findings were left out: what is not listed is then not known, and unknown is never passed.
 */
export function penetrationVerdicts(
  penetrations: readonly Located[],
  findings: readonly Pick<Finding, 'check' | 'outcome' | 'wouldBe' | 'subject'>[],
  checks: readonly CheckResult[],
  complete: boolean,
): ReadonlyMap<string, PenetrationVerdict> {
  const aboutFire = new Set(checks.filter((c) => c.about === 'fire').map((c) => c.id));
  const tallies = new Map(penetrations.map((p) => [p.id, newTally()]));
  const concerned = relate(penetrations);
  // A hundred checks look at one subject.
  const known = new Map<Finding['subject'], readonly Located[]>();
  for (const finding of findings) {
    const about = known.get(finding.subject) ?? concerned(finding);
    known.set(finding.subject, about);
    for (const { id } of about) {
      const tally = tallies.get(id)!;
      tally[finding.outcome]++;
      if (finding.wouldBe === 'passed') tally.wouldPass++;
      if (finding.outcome === 'passed' && aboutFire.has(finding.check)) tally.provedByFire = true;
    }
  }
  return new Map(
    [...tallies].map(([id, { provedByFire, ...outcomes }]) => [
      id,
      { outcome: mostSerious(outcomes, provedByFire, complete), outcomes },
    ]),
  );
}

const newTally = () => ({
  passed: 0,
  failed: 0,
  cantTell: 0,
  inapplicable: 0,
  untested: 0,
  wouldPass: 0,
  provedByFire: false,
});

/** Checks on the model pass on their own, so they alone never make a penetration passed. */
function mostSerious(counts: OutcomeCounts, provedByFire: boolean, complete: boolean): Outcome {
  if (counts.failed > 0) return 'failed';
  if (counts.cantTell > 0 || !complete) return 'cantTell';
  if (counts.untested > 0) return 'untested';
  if (provedByFire) return 'passed';
  return counts.inapplicable > 0 ? 'inapplicable' : 'untested';
}

/**
 * The most serious outcome of a penetration over its own findings and those of its barrier, opening and duct, also
 * those that the report keeps as counts only.
 *
 * @throws RangeError when the report has no such penetration.
 */
export function penetrationOutcome(report: Report, penetrationId: string): Outcome {
  const penetration = report.penetrations.find((p) => p.id === penetrationId);
  if (!penetration) throw new RangeError(`The report has no penetration ${penetrationId}.`);
  return penetration.outcome;
}
