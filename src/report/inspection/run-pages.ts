/** What is inspected along runs that must hold back fire, between the barriers. */

import { fileUnder } from '../../collect.js';
import { QUANTITY_OF } from '../../quantify/takeoff.js';
import { capital, counted, listed } from '../../words/text.js';
import { accessWords } from '../access-words.js';
import { list, paragraph, said, sentence, tag } from '../html-markup.js';
import type { Report, ReportTakeoff } from '../schema.js';
import { strategyWords } from '../strategy-words.js';
import { SUPPORT_CAUTIONS, supportWords } from '../support-words.js';
import { kindWords, MEASURE_WORDS, quantityWords } from '../takeoff-words.js';
import { NOT_STATED } from './inspection-lines.js';
import { BLANKS, inspectionTable } from './storey-pages.js';

type Words = readonly [what: string, accept: string, modelled: string];

export function runTables(report: Report): string {
  const words = strategyWords(report);
  const rows = report.strategy.filter(({ mustResist }) => mustResist !== false);
  const totals = totalsByRun(report.takeoff);
  const panels = accessWords(report);
  const supports = supportWords(report).map((row, i) => ({ ...row, of: report.supports[i]! }));
  const systems = new Map(report.runs.map(({ id, system }) => [id, system]));
  const runs = words.map((one, i) => {
    const row = rows[i]!;
    const own = supports.filter(({ of }) => of.run === row.run && of.part === row.part);
    const name = systems.get(row.run) ? `${systems.get(row.run)} (${row.run})` : row.run;
    const lines: Words[] = [
      ['Protection', row.testedSystem ? systemWords(row.testedSystem) : NOT_STATED, listed(one.there) || NOT_STATED],
      ...(totals.get(row.run) ?? []),
      ['Laps and joints of the protection', NOT_STATED, ''],
      ...own.map(
        (support): Words => [
          `Supports of ${support.section}: ${support.support}`,
          `${listed(support.spacing)}; first ${support.first} from the barrier`,
          support.count,
        ],
      ),
      ...(own.length === 0 ? [['Supports', NOT_STATED, ''] as Words] : []),
      ...panels
        .filter((panel) => panel.run === name)
        .map(
          (panel): Words => [
            `Access panel ${panel.what}`,
            panel.state === 'there' ? panel.size || NOT_STATED : `${panel.why} (${panel.source})`,
            panel.state,
          ],
        ),
    ];
    return tag(
      'article',
      {},
      tag(
        'header',
        {},
        tag('h3', {}, said(`Run ${[one.run, one.system, one.service].filter((part) => part !== '').join(', ')}`)),
        paragraph(
          `Asked for: ${one.required}; fire: ${one.fire}. Opens into: ${one.from}${one.to === '' ? '' : `; leads through ${one.to}`}. At barriers: ${listed(one.crossings) || 'none'}.`,
        ),
        list(
          'ul',
          [...one.lapses.map((lapse) => `Lapse: ${lapse}`), ...one.contradictions.map((text) => `Settle: ${text}`)].map(
            said,
          ),
        ),
      ),
      inspectionTable(
        one.run,
        ['Look at', 'Accepted', 'In the models'],
        lines.map((line) => tag('tbody', {}, tag('tr', {}, ...cells(line)))),
      ),
    );
  });
  return [
    tag('h2', {}, 'Along the runs'),
    paragraph(
      `${counted(runs.length, 'part')} of runs that must hold back fire by ${runs.length === 1 ? 'itself' : 'themselves'}, or of which that is not known. Quantities are those of the whole run between barriers.`,
    ),
    list('ul', SUPPORT_CAUTIONS.map(sentence)),
    ...runs,
  ].join('\n');
}

const cells = (line: Words): string[] => [
  ...line.map((cell) => tag('td', {}, said(cell))),
  ...BLANKS.map((cell) => tag('td', { class: 'blank' }, cell)),
];

const systemWords = ({ id, fixing }: { readonly id: string; readonly fixing: string | null }): string =>
  `by ${id}${fixing === null ? '' : `, fixed by ${fixing}`}`;

/** What is built in along each run, as the take-off has it. */
function totalsByRun(takeoff: ReportTakeoff | null): ReadonlyMap<string, Words[]> {
  const found = new Map<string, Words[]>();
  const materials = new Map((takeoff?.materials ?? []).map((one) => [one.id, one]));
  for (const total of takeoff?.totals ?? []) {
    const material = materials.get(total.material);
    if (total.by !== 'run' || total.id === null || !material) continue;
    const unit = material.measure === 'pieces' && total.pieces === 1 ? 'piece' : MEASURE_WORDS[material.measure];
    const amount = `${quantityWords(total, QUANTITY_OF[material.measure])} ${unit}`;
    fileUnder(found, total.id, [capital(`${kindWords(material.kind)}: ${material.name}`), amount, '']);
  }
  return found;
}
