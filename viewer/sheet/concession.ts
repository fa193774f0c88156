/** A concession from what somebody typed, or what is wrong with it. */
import { needsAttention } from '../../src/attention.js';
import type { ReportFinding } from '../../src/report/schema.js';
import type { NewConcession, Unsaved } from '../state/state.js';
import { WORDS } from '../words.js';

export const CONCESSION_FIELDS = ['reason', 'grantedBy', 'role', 'reference', 'date', 'expires'] as const;
export type ConcessionField = (typeof CONCESSION_FIELDS)[number];
export type Typed = { readonly [F in ConcessionField]: string };
/** One clear line for each field that is wrong. */
export type ConcessionFaults = { readonly [F in ConcessionField]?: string };

/** As the brief takes it. */
const LONGEST: { readonly [F in ConcessionField]?: number } = {
  ...{ reason: 1000, grantedBy: 200, role: 200, reference: 200 },
};

/** @param today ISO 8601 */
export function concessionOf(
  key: string,
  typed: Typed,
  today: string,
): { readonly concession: NewConcession } | { readonly faults: ConcessionFaults } {
  const given = Object.fromEntries(CONCESSION_FIELDS.map((field) => [field, typed[field].trim()])) as Typed;
  const faults = Object.fromEntries(
    CONCESSION_FIELDS.flatMap((field) => {
      const fault = faultOf(field, given, today);
      return fault === null ? [] : [[field, fault] as const];
    }),
  );
  if (Object.keys(faults).length > 0) return { faults };
  const { expires, ...rest } = given;
  return { concession: { key, ...rest, ...(expires === '' ? {} : { expires }) } };
}

function faultOf(field: ConcessionField, given: Typed, today: string): string | null {
  const { faults } = WORDS.concession;
  const value = given[field];
  if (value === '') return field === 'expires' ? null : faults.missing[field];
  const longest = LONGEST[field];
  if (longest !== undefined) return value.length > longest ? faults.tooLong(longest) : null;
  if (!isDay(value)) return faults.noDay;
  if (field === 'date') return value > today ? faults.later : null;
  return isDay(given.date) && value < given.date ? faults.beforeGranted : null;
}

const isDay = (text: string): boolean =>
  /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(text)) && new Date(text).toISOString().startsWith(text);

/** Why nothing can be conceded; null: it can. */
export function whyNoConcession(
  finding: ReportFinding | null,
  { concessions }: Unsaved,
  isTrial: boolean,
): string | null {
  const { sheet } = WORDS;
  // It would rest on what nobody has decided.
  if (isTrial) return sheet.cannotConcedeTrial;
  if (!finding || !needsAttention(finding)) return sheet.cannotConcede;
  const stands = finding.concession?.state === 'inForce' || concessions.some(({ key }) => key === finding.key);
  return stands ? sheet.conceded : null;
}
