/** A storey of the inspection and test plan: what is inspected at each of its penetrations. */
import { capital } from '../../words/text.js';
import { STATUS_WORDS } from '../../words/values.js';
import { partRows } from '../cards/parts.js';
import { concessionWords } from '../concession-words.js';
import { BEFORE_WORDS, HOLD_LINE, isReady, stopsAt, type ToSettle, toSettle, unlistedWords } from '../hold-points.js';
import { outcomeMarkup } from '../html-front.js';
import { list, paragraph, said, sentence, tag, text } from '../html-markup.js';
import type { Lookup } from '../lookup.js';
import { penetrationPlace } from '../place-words.js';
import type { Report, ReportPenetration, ReportTakeoff } from '../schema.js';
import { inspectionLines, NOT_STATED } from './inspection-lines.js';

export interface PlanLookup extends Lookup {
  readonly report: Report;
  readonly items: ReadonlyMap<string, readonly ReportTakeoff['items'][number][]>;
  readonly materials: ReadonlyMap<string, ReportTakeoff['materials'][number]>;
}

/** Of the table of a penetration, for the tags on plans. */
export const inspectionId = (penetration: string): string => `inspect-${penetration}`;

export const storeyTables = (penetrations: readonly ReportPenetration[], lookup: PlanLookup): string =>
  penetrations.map((p) => penetrationTable(p, lookup)).join('\n');

const SIGN_HEADS = ['Result', 'Inspected by', 'Signed', 'Date'] as const;
/** What nobody says is a blank that says so. */
export const BLANKS: readonly string[] = ['', tag('i', {}, NOT_STATED), '', ''];

function penetrationTable(p: ReportPenetration, lookup: PlanLookup): string {
  const settle = toSettle(p, lookup);
  const { chosen } = p.treatment;
  const parts = partRows(p, lookup.items.get(p.id) ?? [], lookup.materials);
  const lines = inspectionLines(p, parts, lookup.report);
  const unlisted = unlistedWords(p, settle);
  const rows = HOLD_LINE.map((step) => {
    const own = lines.filter((line) => line.step === step);
    const stopped = stopsAt(p, step, settle);
    const name = tag(
      'th',
      { scope: 'rowgroup', rowspan: own.length },
      sentence(step.name),
      stopped === 0 ? '' : tag('div', { class: 'failed' }, `STOP: ${stopped} to settle`),
    );
    const body = own.map(({ what, accept, modelled }, i) =>
      tag(
        'tr',
        {},
        ...(i === 0 ? [name] : []),
        ...[what, accept, modelled].map((cell) => tag('td', {}, said(cell))),
        ...BLANKS.map((cell) => tag('td', { class: 'blank' }, cell)),
      ),
    );
    return tag('tbody', {}, body.join('\n'));
  });
  return tag(
    'article',
    { id: inspectionId(p.id) },
    tag(
      'header',
      {},
      tag(
        'h3',
        {},
        text(p.tag),
        lookup.revision === null ? '' : ` ${text(lookup.revision)}`,
        ' ',
        isReady(p, settle) ? outcomeMarkup(p.outcome) : notReady(p),
      ),
      paragraph(capital(`${penetrationPlace(p)}; grid ${p.place.grid ?? NOT_STATED}.`)),
      paragraph(
        chosen
          ? `Tested detail: ${chosen.title} (${STATUS_WORDS[chosen.status]}). Document: ${chosen.source}`
          : `Tested detail: ${NOT_STATED}. ${p.dampers.length > 0 ? "A damper's own tested document decides." : ''}`,
      ),
      list(
        'ul',
        [...settle.map(settleWords), ...(unlisted === null ? [] : [`Before any work: ${unlisted}`])].map(said),
      ),
    ),
    inspectionTable(p.tag, ['Hold point', 'Look at', 'Accepted', 'In the models'], rows),
  );
}

/** @param bodies markup of groups of rows. The name stands again where a table goes on on a further page. */
export function inspectionTable(name: string, heads: readonly string[], bodies: readonly string[]): string {
  const all = [...heads, ...SIGN_HEADS];
  return tag(
    'table',
    { class: `small inspect of-${all.length}` },
    ...all.map(() => '<col>'),
    tag(
      'thead',
      {},
      tag('tr', {}, tag('th', { colspan: all.length, scope: 'colgroup' }, text(name))),
      tag('tr', {}, ...all.map((head) => tag('th', { scope: 'col' }, head))),
    ),
    ...bodies,
  );
}

const settleWords = ({ finding: { message, remedy, concession }, stops }: ToSettle): string =>
  [
    `${stops === null ? 'Before any work' : capital(BEFORE_WORDS[stops])}: ${message}`,
    `Remedy: ${remedy ?? NOT_STATED}`,
    ...(concession ? [concessionWords(concession)] : []),
  ].join(' ');

const notReady = (p: ReportPenetration): string =>
  `${tag('b', { class: 'not-ready' }, 'NOT READY')} ${outcomeMarkup(p.outcome)}`;
