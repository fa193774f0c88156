/** What a topic says, for a person who has nothing else before them. */

import { oneLine } from '../../words/text.js';
import { limitWords, valueWords } from '../../words/values.js';
import { concessionWords } from '../concession-words.js';
import { placeWords } from '../place-words.js';
import type { Report, ReportFinding, ReportPenetration } from '../schema.js';
import { basisWords, DEMONSTRATION } from '../words.js';

interface Said {
  readonly findings: readonly ReportFinding[];
  readonly penetrations: readonly ReportPenetration[];
}

export function describeTopic(report: Report, { findings, penetrations }: Said): string {
  const { lead, text } = placeWords(report, findings[0]!, penetrations);
  const parts = [
    ...(report.demonstration ? [DEMONSTRATION] : []),
    `Where: ${lead}${text}.`,
    ...findings.map((finding) => findingText(report, finding)),
    ...report.cautions,
    `Review of ${report.createdAt} by ${report.tool}.`,
  ];
  return parts.map(paragraph).join('\n\n');
}

function findingText(report: Report, finding: ReportFinding): string {
  const { message, remedy, measured, limit, margin, concession } = finding;
  const check = report.checks.find(({ id }) => id === finding.check);
  const unit = check?.unit ?? undefined;
  const missed = margin !== null && margin < 0 ? `; missed by ${valueWords(-margin, unit)}` : '';
  const lines = [
    message,
    ...(measured === null ? [] : [`Measured: ${valueWords(measured, unit)}.`]),
    ...(limit === null ? [] : [`Allowed: ${limitWords(limit, unit)}${missed}.`]),
    ...(remedy === null ? [] : [`Remedy: ${remedy}`]),
    ...(concession === null ? [] : [`${concessionWords(concession)} It changes no outcome.`]),
    `Key: ${finding.key}.`,
    ...(check ? [`Check ${check.id}: ${check.title}. Basis: ${basisWords(check.basis)}.`] : []),
  ];
  return lines.join('\n');
}

/** Texts of models may hold anything; the line breaks are ours. */
const paragraph = (text: string): string => text.split('\n').map(oneLine).join('\n');
