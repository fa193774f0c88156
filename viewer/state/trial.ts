/** What a trial changes, for the strip that tells it. */
import type { Outcome } from '../../src/model.js';
import { MATERIAL_KINDS } from '../../src/quantify/takeoff.js';
import type { Assumed, Report } from '../../src/report/schema.js';
import { type KindSum, sumsOfKind } from '../../src/report/takeoff-words.js';
import { valueWords } from '../../src/words/values.js';
import { WORDS } from '../words.js';
import type { OpenReport, Selection } from './state.js';

export interface MaterialChange {
  /** Null: nothing of it is counted there. */
  readonly before: KindSum | null;
  readonly after: KindSum | null;
}

/** Kinds of material of which another quantity would be built in, in the order of the take-off. */
export function materialChanges(before: Report, after: Report): MaterialChange[] {
  const sums = ({ takeoff }: Report): Map<string, KindSum> =>
    new Map(
      MATERIAL_KINDS.flatMap((kind) => (takeoff ? sumsOfKind(takeoff, kind) : [])).map((one) => [
        `${MATERIAL_KINDS.indexOf(one.kind)} ${one.measure}`,
        one,
      ]),
    );
  const [was, is] = [sums(before), sums(after)];
  return [...new Set([...was.keys(), ...is.keys()])]
    .sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10))
    .map((key) => ({ before: was.get(key) ?? null, after: is.get(key) ?? null }))
    .filter(({ before: a, after: b }) => a?.sum !== b?.sum || a?.isLeast !== b?.isLeast);
}

export interface OutcomeChange {
  readonly outcome: Outcome;
  readonly before: number;
  readonly after: number;
}

/** The outcomes that decide, and others that change. */
export const outcomeChanges = ({ before, after }: Assumed['outcomes']): OutcomeChange[] =>
  (['failed', 'cantTell', 'passed', 'untested', 'inapplicable'] as const)
    .map((outcome) => ({ outcome, before: before[outcome], after: after[outcome] }))
    .filter((one, i) => i < 3 || one.before !== one.after);

/** Keys of the findings that the trial lists and the review does not, or with another outcome. */
export function movedKeys({ goes, comes }: Pick<Assumed, 'goes' | 'comes'>): string[] {
  return [...new Set([...comes, ...goes].map(({ key }) => key))];
}

/** As the brief's keys lead there: `systems.KX.fixing` as `systems, KX, fixing`. */
export const choiceName = (name: string): string =>
  [...name.matchAll(/"([^"]*)"|'([^']*)'|([^."']+)/g)]
    .map(([, a, b, key]) => a ?? b ?? (/^[a-z]+[A-Z]/.test(key!) ? inWords(key!) : key!))
    .join(', ');

/** The brief's plain data: `fixing pins, layers 2`. */
export function choiceWords(value: unknown): string {
  if (value === null || value === undefined) return WORDS.trial.leftOut;
  if (Array.isArray(value)) return value.length === 0 ? WORDS.trial.none : value.map(choiceWords).join('; ');
  if (typeof value === 'object')
    return Object.entries(value)
      .map(([key, one]) => `${inWords(key)} ${choiceWords(one)}`)
      .join(', ');
  return typeof value === 'boolean' ? valueWords(value) : String(value);
}

/** `siteTolerance` as `site tolerance`. */
const inWords = (key: string): string => key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** Ids of findings go by what is listed, keys stay: what is selected stays selected. */
export function sameFinding(selection: Selection, before: OpenReport, after: OpenReport): Selection {
  const key = before.report.findings.find(({ id }) => id === selection.finding)?.key;
  const now = key === undefined ? undefined : after.report.findings.find((one) => one.key === key);
  return { ...selection, finding: now?.id ?? null };
}
