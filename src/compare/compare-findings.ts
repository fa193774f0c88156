/** Findings of two reports in pairs: by their keys, else by check, place and side. */
import { needsAttention } from '../attention.js';
import { fileUnder } from '../collect.js';
import { facingEndsKey } from '../find/keys.js';
import type { ElementRef } from '../model.js';
import { relate } from '../report/penetration-outcome.js';
import { placeWords } from '../report/place-words.js';
import type { Report, ReportFinding, ReportPenetration } from '../report/schema.js';
import { barrierNames, matchFacingEnds } from './carry-keys.js';
import { isStillLookedAt, listsAll, possibleOutcomes, statusOfBoth } from './finding-changes.js';
import type { Match } from './match.js';
import type { ComparedFinding } from './schema.js';

type Matches = ReadonlyMap<ReportPenetration, Match<ReportPenetration>>;

export function compareFindings(before: Report, after: Report, matches: Matches): ComparedFinding[] {
  const sides = sidesOf(before, after, matches);
  const pairs = pairUp(sides);
  const wasOf = new Map([...pairs].map(([was, is]) => [is, was]));
  const [beforeAll, afterAll] = [listsAll(before), listsAll(after)];
  // What cannot be told is listed once for each missing fact, unless all is listed: then only one list has it.
  const isShown = (finding: ReportFinding) =>
    beforeAll === afterAll
      ? beforeAll || needsAttention(finding)
      : needsAttention(finding) && finding.outcome !== 'cantTell';
  return [
    ...after.findings
      .filter((finding) => wasOf.has(finding) || isShown(finding))
      .map((finding) => compared(sides, wasOf.get(finding), finding)),
    ...before.findings
      .filter((finding) => !pairs.has(finding) && isShown(finding))
      .map((finding) => compared(sides, finding, undefined)),
  ];
}

/** One report, and the names by which its findings are looked for in the other: those of the earlier report. */
interface Side {
  readonly report: Report;
  readonly concerned: (finding: ReportFinding) => readonly ReportPenetration[];
  readonly listedAt: ReadonlyMap<ReportPenetration, readonly ReportFinding[]>;
  readonly barrierNames: ReadonlySet<string>;
  readonly barrierOf: (finding: ReportFinding) => string | undefined;
  /** Of the check, the subject and the side; reasons are left out, since they are what changes. */
  readonly identity: (finding: ReportFinding) => string;
}
interface Sides {
  readonly before: Side;
  readonly after: Side;
  readonly matches: Matches;
  /** Earlier penetration → later one. */
  readonly now: ReadonlyMap<ReportPenetration, ReportPenetration>;
}

function sidesOf(before: Report, after: Report, matches: Matches): Sides {
  const facing = matchFacingEnds(after.facingEnds, before.facingEnds);
  const nameNow = barrierNames(after, before, matches, facing);
  return {
    matches,
    now: new Map([...matches].map(([p, match]) => [match.before, p])),
    before: sideOf(
      before,
      ({ key }) => key,
      (barrier) => barrier.inferredFrom ?? barrier.globalId,
      new Map(before.facingEnds.map((ends) => [idsOf(ends.ends), ends.key])),
    ),
    after: sideOf(
      after,
      (p) => matches.get(p)?.before.key ?? p.key,
      (barrier) => nameNow(barrier) ?? barrier.globalId,
      new Map(after.facingEnds.map((ends) => [idsOf(ends.ends), facing.get(ends)?.key ?? ends.key])),
    ),
  };
}

const idsOf = (ends: readonly ElementRef[]): string => facingEndsKey(ends.map(({ globalId }) => globalId));

function sideOf(
  report: Report,
  keyOf: (p: ReportPenetration) => string,
  barrierName: (barrier: Report['barriers'][number]) => string,
  facing: ReadonlyMap<string, string>,
): Side {
  const concerned = relate(report.penetrations);
  const barriers = new Map(report.barriers.map((b) => [`${b.model}/${b.globalId}`, barrierName(b)]));
  const barrierOf = ({ subject: { type, elements } }: ReportFinding) =>
    type === 'barrier' && elements[0] ? barriers.get(`${elements[0].model}/${elements[0].globalId}`) : undefined;
  const keys = new Map(report.penetrations.map((p) => [p.id, keyOf(p)]));
  const nameOfRun = new Map(report.runs.map((run) => [run.id, leastKey(run, keys)]));
  const subjectName = (finding: ReportFinding): string => {
    const { type, id, elements } = finding.subject;
    if (type === 'penetration') return concerned(finding).map(keyOf).sort().join(' ');
    if (type === 'model') return id;
    if (type === 'run') return nameOfRun.get(id) ?? id;
    const named = elements.flatMap((one) => barriers.get(`${one.model}/${one.globalId}`) ?? []);
    // A compartment, or two walls that do not meet; rooms have no names that last.
    if (type === 'barrier' && named.length > 1) return named.sort().join(' ');
    const barrier = barrierOf(finding);
    const others = elements.slice(1);
    if (barrier !== undefined)
      return [barrier, ...(others.length > 0 ? [facing.get(idsOf(others)) ?? idsOf(others)] : [])].join(' ');
    return elements.map(({ globalId }) => globalId).join(' ');
  };
  const listedAt = new Map<ReportPenetration, ReportFinding[]>();
  for (const finding of report.findings) for (const p of concerned(finding)) fileUnder(listedAt, p, finding);
  return {
    report,
    concerned,
    listedAt,
    barrierNames: new Set(barriers.values()),
    barrierOf,
    identity: (finding) => JSON.stringify([finding.check, finding.subject.type, subjectName(finding), finding.side]),
  };
}

/** A run is known again by one of its penetrations; undefined where it has none. */
const leastKey = ({ stretches }: Report['runs'][number], keys: ReadonlyMap<string, string>): string | undefined =>
  stretches.flatMap(({ ends }) => ends.flatMap(({ penetration }) => keys.get(penetration) ?? [])).sort()[0];

/** Before → after. */
function pairUp({ before, after }: Sides): Map<ReportFinding, ReportFinding> {
  const pairs = new Map<ReportFinding, ReportFinding>();
  const byKey = new Map(after.report.findings.map((finding) => [finding.key, finding]));
  for (const was of before.report.findings) {
    const is = byKey.get(was.key);
    if (is) pairs.set(was, is);
  }
  const paired = new Set(pairs.values());
  const left = new Map<string, ReportFinding[]>();
  for (const is of after.report.findings) if (!paired.has(is)) fileUnder(left, after.identity(is), is);
  for (const was of before.report.findings) {
    if (pairs.has(was)) continue;
    const candidates = left.get(before.identity(was)) ?? [];
    const is = candidates.find((one) => sameReason(was, one)) ?? candidates[0];
    if (!is) continue;
    pairs.set(was, is);
    candidates.splice(candidates.indexOf(is), 1);
  }
  return pairs;
}

const sameReason = (a: ReportFinding, b: ReportFinding): boolean =>
  a.outcome === b.outcome && JSON.stringify(a.missing) === JSON.stringify(b.missing);

function compared(sides: Sides, was: ReportFinding | undefined, is: ReportFinding | undefined): ComparedFinding {
  const shown = (is ?? was)!;
  const side = is ? sides.after : sides.before;
  const penetrations = side.concerned(shown);
  const told = was && is ? { status: statusOfBoth(was, is), possible: [] } : is ? NEW : unlisted(sides, was!);
  return {
    ...told,
    check: shown.check,
    title: side.report.checks.find(({ id }) => id === shown.check)?.title ?? shown.check,
    tags: penetrations.map((p) => sides.matches.get(p)?.before.tag ?? p.tag),
    place: placeWords(side.report, shown, penetrations).text,
    inferred: is !== undefined && penetrations.some((p) => sides.matches.get(p)?.inferred),
    before: saidIn(was),
    after: saidIn(is),
  };
}

type Told = Pick<ComparedFinding, 'status' | 'possible'>;
const NEW: Told = { status: 'new', possible: [] };

/** Listed before and not now: it passed only where nothing else can be. */
function unlisted({ before, after, now }: Sides, was: ReportFinding): Told {
  const concerned = before.concerned(was);
  if (was.subject.type === 'penetration') {
    const [first, ...others] = concerned.map((p) => now.get(p));
    if (!first || others.includes(undefined)) return { status: 'absent', possible: [] };
    const listed = after.listedAt.get(first) ?? [];
    const possible = possibleOutcomes(was.check, after.report, { penetration: first, listed });
    const isLookedAt = isStillLookedAt(was, concerned[0]!, first, others as ReportPenetration[]);
    return isLookedAt && only(possible, 'passed') ? NOW_PASSES : { status: 'noLongerListed', possible };
  }
  const barrier = before.barrierOf(was);
  if (barrier !== undefined && !after.barrierNames.has(barrier)) return { status: 'absent', possible: [] };
  const possible = possibleOutcomes(was.check, after.report, undefined);
  // A barrier that nothing passes any more, or duct ends that no longer face each other, are not judged.
  const isJudged =
    was.subject.type === 'model' || (was.subject.elements.length === 1 && concerned.some((p) => now.has(p)));
  return isJudged && only(possible, 'passed') ? NOW_PASSES : { status: 'noLongerListed', possible };
}

const NOW_PASSES: Told = { status: 'nowPasses', possible: [] };
const only = <T>(list: readonly T[], value: T): boolean => list.length === 1 && list[0] === value;

function saidIn(finding: ReportFinding | undefined): ComparedFinding['before'] {
  if (!finding) return null;
  const { id, outcome, measured, margin, message } = finding;
  return { id, outcome, measured, margin, message };
}
