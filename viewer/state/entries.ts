/** What was granted and said here, beside its findings as the next review will have it from the brief. */
import type { Report, ReportFinding } from '../../src/report/schema.js';
import type { NewConcession, Unsaved } from './state.js';

export const NO_ENTRIES: Unsaved = { concessions: [], comments: [] };

export const isNone = ({ concessions, comments }: Unsaved): boolean => concessions.length + comments.length === 0;

/** A later concession takes the place of an earlier one for the same finding. */
export function joined(first: Unsaved, second: Unsaved): Unsaved {
  const keys = new Set(second.concessions.map(({ key }) => key));
  return {
    concessions: [...first.concessions.filter(({ key }) => !keys.has(key)), ...second.concessions],
    comments: [...first.comments, ...second.comments],
  };
}

/** What stands there already is not doubled. */
export function withEntries(report: Report, entries: Unsaved): Report {
  if (isNone(entries)) return report;
  const granted = new Map(entries.concessions.map((one) => [one.key, one]));
  const findings = report.findings.map((finding): ReportFinding => {
    const own = granted.get(finding.key);
    const said = entries.comments
      .filter((one) => one.finding === finding.key)
      .map(({ date, author, text }) => ({ date, author, text }))
      .filter((one) => !finding.comments.some((old) => same(old, one)));
    if (!own && said.length === 0) return finding;
    return {
      ...finding,
      comments: [...finding.comments, ...said],
      concession: own ? concessionOf(own) : finding.concession,
    };
  });
  return { ...report, findings };
}

const concessionOf = ({ key: _, expires, ...granted }: NewConcession): NonNullable<ReportFinding['concession']> => ({
  ...granted,
  ...{ expires: expires ?? null, state: 'inForce', because: null },
});

type Said = ReportFinding['comments'][number];
const same = (a: Said, b: Said): boolean => a.date === b.date && a.author === b.author && a.text === b.text;
