/** What became of one finding: told from what two reports hold, and no more. */
import { needsAttention } from '../attention.js';
import type { Outcome } from '../model.js';
import type { Report, ReportFinding, ReportPenetration } from '../report/schema.js';
import { SAME_SIZE } from '../tolerances.js';
import type { FindingStatus } from './schema.js';

/** Both reports have it. */
export function statusOfBoth(before: ReportFinding, after: ReportFinding): FindingStatus {
  const [was, is] = [before.outcome, after.outcome];
  if (was === is) return was === 'failed' ? byMargin(before, after) : byProof(before, after);
  if (is === 'passed') return 'nowPasses';
  const isWorse =
    (was === 'passed' && (is === 'failed' || is === 'cantTell')) || (was === 'cantTell' && is === 'failed');
  // Failed before and not to be told now is no better: the evidence is gone, not the fault.
  return isWorse ? 'worse' : 'changed';
}

function byMargin(before: ReportFinding, after: ReportFinding): FindingStatus {
  if (before.margin !== null && after.margin !== null) {
    const step = after.margin - before.margin;
    if (Math.abs(step) > SAME_SIZE) return step > 0 ? 'better' : 'worse';
    return 'unchanged';
  }
  return before.measured === after.measured && sameTexts(limits(before), limits(after)) ? 'unchanged' : 'changed';
}

function byProof(before: ReportFinding, after: ReportFinding): FindingStatus {
  if (before.wouldBe !== after.wouldBe) return after.wouldBe === 'passed' ? 'better' : 'worse';
  return sameTexts(before.missing, after.missing) ? 'unchanged' : 'changed';
}

const limits = ({ limit }: ReportFinding): readonly string[] => [JSON.stringify(limit)];
const sameTexts = (a: readonly string[], b: readonly string[]): boolean =>
  JSON.stringify([...a].sort()) === JSON.stringify([...b].sort());

/** Made with --all-findings, as far as it shows. */
export const listsAll = ({ findings }: Report): boolean => findings.some((finding) => !needsAttention(finding));

const OUTCOMES = ['passed', 'failed', 'cantTell', 'inapplicable', 'untested'] as const satisfies readonly Outcome[];

/**
 * What a result that is not listed can be: of what its check, and its penetration, have more than they list.
 *
 * @param listed findings of the later report that are about the penetration; undefined where it is about none
 */
export function possibleOutcomes(
  check: string,
  after: Report,
  at: { readonly penetration: ReportPenetration; readonly listed: readonly ReportFinding[] } | undefined,
): Outcome[] {
  const counted = after.checks.find(({ id }) => id === check)?.outcomes;
  if (!counted) return [];
  const listedOf = (list: readonly ReportFinding[], outcome: Outcome) =>
    list.filter((finding) => finding.outcome === outcome).length;
  const ofCheck = after.findings.filter((finding) => finding.check === check);
  return OUTCOMES.filter(
    (outcome) =>
      counted[outcome] > listedOf(ofCheck, outcome) &&
      (!at || at.penetration.outcomes[outcome] > listedOf(at.listed, outcome)),
  );
}

/**
 * Whether the check still looks at this part of the penetration: a side has a gap only between rectangles, a pair needs
 * both. Where that can't be told the answer is no.
 */
export function isStillLookedAt(
  finding: ReportFinding,
  before: ReportPenetration,
  after: ReportPenetration,
  beside: readonly ReportPenetration[],
): boolean {
  const near = new Set(after.neighbours.map(({ penetration }) => penetration));
  if (!beside.every(({ id }) => near.has(id))) return false;
  if (finding.side !== null) return hasSides(after);
  const { measured } = finding;
  const isAllRound = measured !== null && (measured === before.gaps.min || measured === before.gaps.max);
  return !isAllRound || !hasSides(after);
}

const hasSides = ({ duct, opening, gaps }: ReportPenetration): boolean =>
  duct.shape === 'rectangular' &&
  opening?.shape === 'rectangular' &&
  [gaps.top, gaps.bottom, gaps.left, gaps.right].every((gap) => gap !== null);
