/** A comparison as plain text, to be read in a meeting. */
import { DEMONSTRATION } from '../report/words.js';
import { printable, wrap } from '../words/text.js';
import { type ComparisonItem, comparisonSections, headSentences, quietlyMatched } from './comparison-sections.js';
import type { Comparison } from './schema.js';

const WIDTH = 96;

export function writeComparison(comparison: Comparison): string {
  const { before, after } = comparison;
  const matched = quietlyMatched(comparison);
  const sections = [
    [
      ...(before.demonstration || after.demonstration ? wrap(DEMONSTRATION, WIDTH) : []),
      ...headSentences(comparison).flatMap((sentence) => wrap(sentence, WIDTH)),
    ],
    ...comparisonSections(comparison).map(({ heading, items }) => [
      `${heading} (${items.length})`,
      ...items.flatMap(itemLines),
    ]),
    matched.length === 0
      ? []
      : [`Unchanged, known again by place (${matched.length})`, ...wrap(matched.join(', '), WIDTH, '  ')],
  ].filter((lines) => lines.length > 0);
  return printable(`${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`);
}

const itemLines = ({ lead, place, said }: ComparisonItem): string[] => [
  ...wrap(place, WIDTH, lead === '' ? '  ' : `  ${lead}  `, '      '),
  ...said.flatMap((text) => wrap(text, WIDTH, '    ', '      ')),
];
