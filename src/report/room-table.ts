/** The table of report.html that says how near everything stands to protected ducts, the tightest first. */
import { besideWords } from '../words/beside.js';
import { oneLine } from '../words/text.js';
import { valueWords } from '../words/values.js';
import { paragraph, sentence, table, tag } from './html-markup.js';
import type { Report } from './schema.js';

const MOST_ROWS = 200;

export function roomTable({ runs }: Report): string {
  const all = runs
    .flatMap(({ id, stretches }) =>
      stretches.flatMap(({ parts, clearances }) =>
        clearances.map((clearance) => {
          const { model, globalId } = clearance.elements[0] ?? {};
          const part = parts.find((one) => one.model === model && one.globalId === globalId);
          return { run: id, part, ...clearance };
        }),
      ),
    )
    .filter(({ part }) => part !== undefined && !['none', 'unknown'].includes(part.protection.kind))
    .sort((a, b) => a.distance - b.distance);
  if (all.length === 0) return '';
  const shown = all.slice(0, MOST_ROWS);
  return [
    tag('h2', {}, 'Room beside protected ducts'),
    paragraph(
      `What stands within 500 mm of ducts that are said to be protected, the tightest first${all.length > MOST_ROWS ? `: ${MOST_ROWS} of ${all.length}, all of them in report.json` : ''}. Barriers that a duct passes are left out.`,
    ),
    table(
      'small',
      ['Run', 'Duct', 'Side', 'What stands there', 'Distance', 'Over', 'From'],
      shown.map(({ run, part, side, obstacle, distance, length, from }) => [
        sentence(run),
        sentence(oneLine(part!.name) || part!.globalId),
        sentence(besideWords(side, part).where.replace(/ of$/, '')),
        sentence(`${oneLine(obstacle.name) || obstacle.globalId} (${obstacle.kind})`),
        sentence(valueWords(distance, 'mm')),
        sentence(length === null ? 'a bend or fitting' : valueWords(length, 'mm')),
        sentence(from === 'sheet' ? 'the sheet' : 'what is drawn'),
      ]),
    ),
  ].join('\n');
}
