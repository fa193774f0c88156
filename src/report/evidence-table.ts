/** The section of report.html that holds each penetration against the scope of its tested system, line by line. */
import { paragraph, sentence, table, tag, text } from './html-markup.js';
import { penetrationPlace } from './place-words.js';
import type { Report, ReportPenetration } from './schema.js';
import { chosenWords, ownSourceWords, SCOPE_HEADINGS, scopeRow } from './tested-words.js';

/** More would be printed by nobody; all of them are in report.json and register.xlsx. */
const MOST_SHOWN = 500;

/** Empty where no tested system is held against any penetration. */
export function evidenceTables({ penetrations }: Report): string {
  const all = penetrations.filter(({ treatment }) => treatment.chosen !== null);
  if (all.length === 0) return '';
  const left = all.length - MOST_SHOWN;
  return [
    tag('h2', {}, 'Evidence: the tested scope, line by line'),
    paragraph(
      "What each protected penetration is, where that was taken from, and what the tested system's document allows. Room, joints and supports are judged by checks of their own.",
    ),
    ...(left > 0 ? [paragraph(`${left} more are in register.xlsx.`)] : []),
    ...all.slice(0, MOST_SHOWN).map(evidenceOf),
  ].join('\n');
}

function evidenceOf(p: ReportPenetration): string {
  const { scope, source } = p.treatment.chosen!;
  // The document's own source is said once, over the table.
  const rows = scope.map((line) => scopeRow({ ...line, source: line.source === source ? '' : line.source }));
  return [
    tag('h3', {}, text(p.tag), ' ', sentence(penetrationPlace(p))),
    paragraph(`${chosenWords(p.treatment)} ${ownSourceWords(p.treatment)}`),
    table(
      'small evidence',
      SCOPE_HEADINGS,
      rows.map((row) => row.map(sentence)),
    ),
  ].join('\n');
}
