import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { compareNumbers, compareTexts, fileUnder } from '../collect.js';
import type { Finding, Outcome } from '../model.js';
import type { Verdict } from './evaluate.js';
import { relativeMargin } from './limit.js';
import type { CompiledCheck } from './rule-set.js';
import { say } from './say.js';
import type { Subject } from './subject.js';

/** A finding without its words and its place in a list. */
export type BareFinding = Pick<
  Finding,
  'key' | 'check' | 'outcome' | 'wouldBe' | 'subject' | 'side' | 'at' | 'measured' | 'limit' | 'margin' | 'tolerance'
>;

/** A verdict with all that it belongs to. There are a hundred at each penetration, so what few are asked for is worked out then. */
export class Result implements BareFinding {
  /** Tells it from others of one check about one subject. */
  private ordinal = 1;
  private hashed: string | undefined;

  constructor(
    readonly rule: CompiledCheck,
    readonly about: Subject,
    readonly verdict: Verdict,
  ) {}

  /** Does not depend on what is listed. */
  get key(): string {
    this.hashed ??= hash(this.ordinal === 1 ? this.name : `${this.name}\n${this.ordinal}`);
    return this.hashed;
  }
  get check(): string {
    return this.rule.definition.id;
  }
  get outcome(): Outcome {
    return this.verdict.outcome;
  }
  get wouldBe(): 'passed' | null {
    return this.verdict.wouldBe;
  }
  get subject(): Finding['subject'] {
    return this.about.subject;
  }
  get side(): Finding['side'] {
    return this.about.side;
  }
  get at(): Finding['at'] {
    return this.about.at;
  }
  get measured(): Finding['measured'] {
    return this.verdict.measured;
  }
  get limit(): Finding['limit'] {
    return this.verdict.limit;
  }
  get margin(): Finding['margin'] {
    return this.verdict.margin;
  }
  get tolerance(): Finding['tolerance'] {
    return this.verdict.tolerance;
  }

  private get name(): string {
    return [this.check, this.verdict.reason ?? '', this.about.key].join('\n');
  }

  private get place(): string {
    const { about, verdict } = this;
    return JSON.stringify([about.subject.elements, about.at, about.barrier, verdict]);
  }

  /** Where GlobalIds repeat, subjects share a key; then the place decides on a number that tells their findings apart. */
  static number(alike: Iterable<Result>): void {
    const groups = new Map<string, Result[]>();
    for (const result of alike) fileUnder(groups, result.name, result);
    for (const group of groups.values()) {
      if (group.length < 2) continue;
      const placed = group.map((result) => ({ result, place: result.place }));
      placed.sort((a, b) => compareTexts(a.place, b.place));
      for (const [i, { result }] of placed.entries()) result.ordinal = i + 1;
    }
  }
}

/** Puts results in order, numbers them and puts them into words. */
export const toFindings = (results: readonly Result[], waiting: ReadonlyMap<Result, ReadonlySet<string>>): Finding[] =>
  results.toSorted(inOrder).map((result, i) => toFinding(result, i + 1, waiting.get(result)?.size ?? 0));

function toFinding(result: Result, number: number, waiting: number): Finding {
  const { rule, about, verdict } = result;
  return {
    id: `F-${String(number).padStart(4, '0')}`,
    key: result.key,
    check: result.check,
    outcome: verdict.outcome,
    wouldBe: verdict.wouldBe,
    subject: about.subject,
    side: about.side,
    at: about.at,
    measured: verdict.measured,
    limit: verdict.limit,
    margin: verdict.margin,
    tolerance: verdict.tolerance,
    ...say(rule, verdict, about.facts, waiting),
    change: null,
    missing: verdict.missing,
    concession: null,
  };
}

/** The same results are named again and again while changes are proven. */
const hashes = new Map<string, string>();
const MOST_HASHES = 50_000;

/** 64 bits: a project has thousands of findings, not billions. */
function hash(text: string): string {
  const known = hashes.get(text);
  if (known !== undefined) return known;
  if (hashes.size >= MOST_HASHES) hashes.clear();
  const made = bytesToHex(sha256(utf8ToBytes(text))).slice(0, 16);
  hashes.set(text, made);
  return made;
}

const OUTCOME_ORDER: readonly Outcome[] = ['failed', 'cantTell', 'passed', 'inapplicable', 'untested'];

/** By outcome, then rating (higher first), then relative margin (worst first), then key. */
function inOrder(a: Result, b: Result): number {
  return (
    compareNumbers(outcomeRank(a), outcomeRank(b)) ||
    compareNumbers(b.about.rank, a.about.rank) ||
    compareNumbers(marginRank(a), marginRank(b)) ||
    compareTexts(a.key, b.key)
  );
}

const outcomeRank = ({ outcome }: Result): number => OUTCOME_ORDER.indexOf(outcome);

/** What has no margin comes after what is missed and before what is met. */
function marginRank({ verdict: { measured, limit, margin } }: Result): number {
  return typeof measured === 'number' && limit && margin !== null ? relativeMargin(measured, limit, margin) : 0;
}
