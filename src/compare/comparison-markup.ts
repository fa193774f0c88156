/** A comparison as a part of report.html. */
import { list, paragraph, sentence, tag } from '../report/html-markup.js';
import { comparisonSections, headSentences, quietlyMatched } from './comparison-sections.js';
import type { Comparison } from './schema.js';

/** More lines than these nobody reads on paper; `compare` lists them all. */
const MOST = 60;

export function comparisonMarkup(comparison: Comparison): string {
  const matched = quietlyMatched(comparison);
  return [
    tag('h2', {}, 'What changed'),
    ...headSentences(comparison).map((one) => paragraph(one)),
    ...comparisonSections(comparison).map(({ heading, items }) => {
      const shown = items
        .slice(0, MOST)
        .map(({ lead, place, said }) =>
          [tag('b', {}, sentence([lead, place].filter((part) => part !== '').join('  '))), ...said.map(sentence)].join(
            '<br>',
          ),
        );
      const more = items.length > MOST ? [sentence(`and ${items.length - MOST} more`)] : [];
      return tag('h3', {}, sentence(`${heading} (${items.length})`)) + list('ul', [...shown, ...more]);
    }),
    ...(matched.length === 0 ? [] : [paragraph(`Unchanged, known again by place: ${matched.join(', ')}.`)]),
  ].join('\n');
}
