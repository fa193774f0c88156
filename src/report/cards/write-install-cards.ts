/** install-cards.html: a card of A5 pages for each penetration that is built, to stand on a ladder with. */
import type { FontFace } from '../../draw/paper/font-face.js';
import type { Style } from '../../draw/paper/text.js';
import { isReady, toSettle } from '../hold-points.js';
import { projectWords } from '../html-front.js';
import { htmlFile, tag } from '../html-markup.js';
import { type Lookup, lookupOf } from '../lookup.js';
import type { Report } from '../schema.js';
import { materialsById } from '../takeoff-rows.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from '../words.js';
import { cardPages } from './card-pages.js';
import { cardStyle, LATER_ROOM, WIDTH } from './card-style.js';
import { type Block, type Column, pagesOf, plainBlock, tableBlock, tableRow, textPiece } from './flow.js';
import { readyWords, revisionWords } from './heads.js';
import { byPenetration, partRows } from './parts.js';
import { type CardList, cardList } from './which.js';

export function writeInstallCards(report: Report, fonts: readonly FontFace[]): Uint8Array {
  const lookup = lookupOf(report);
  const list = cardList(report);
  const { takeoff } = report;
  const items = byPenetration(takeoff?.items ?? []);
  const uncounted = byPenetration(takeoff?.uncounted ?? []);
  const materials = takeoff === null ? new Map() : materialsById(takeoff);
  const cards = list.cards.map((penetration, i) =>
    cardPages({
      ...{ penetration, lookup, id: `c${i}`, reviewedOn: report.createdAt.slice(0, 10) },
      parts: partRows(penetration, items.get(penetration.id) ?? [], materials),
      uncounted: uncounted.get(penetration.id) ?? [],
    }).map((page) => pageOf(report, 'card', page, { 'data-tag': penetration.tag })),
  );
  return htmlFile(`Installation cards: ${projectWords(report)}`, cardStyle(fonts), [
    ...pagesOf(listBlocks(report, list, lookup), LATER_ROOM).map((page) => pageOf(report, 'list', page)),
    ...cards.flat(),
  ]);
}

const pageOf = (report: Report, className: string, content: string, attributes = {}): string =>
  tag(
    'section',
    { class: className, ...attributes },
    ...(report.demonstration ? [tag('p', { class: 'small stamp' }, DEMONSTRATION)] : []),
    content,
    tag('p', { class: 'small foot' }, CAUTION_IN_BRIEF),
  );

const TITLE: Style = { lettering: 'title', bold: true };
const TEXT: Style = { lettering: 'normal' };
const STRONG: Style = { lettering: 'normal', bold: true };

/** The first pages: which cards there are, which are not ready, and what has none. */
function listBlocks(report: Report, { cards, without }: CardList, lookup: Lookup): Block[] {
  const ready = cards.filter((p) => isReady(p, toSettle(p, lookup)));
  const text = (words: string, style: Style) => textPiece({ text: words, style }, WIDTH);
  const columns: Column[] = [
    { width: 30, head: 'Tag' },
    { width: WIDTH - 62, head: 'Storey, barrier' },
    { width: 32, head: 'Card' },
  ];
  const rows = cards.map((p) =>
    tableRow(columns, [
      [{ text: p.tag, style: STRONG }],
      [{ text: `${p.storey?.name || 'storey not stated'}, ${p.barrier.name || 'without a name'}`, style: TEXT }],
      [{ text: ready.includes(p) ? 'passed' : 'NOT READY', style: ready.includes(p) ? TEXT : STRONG }],
    ]),
  );
  const others: Column[] = [
    { width: 30, head: 'Tag' },
    { width: WIDTH - 30, head: 'Why it has no card' },
  ];
  return [
    plainBlock(
      text('Installation cards', TITLE),
      text(
        `${projectWords(report)}; ${revisionWords(report.revision)}; reviewed ${report.createdAt.slice(0, 10)}`,
        TEXT,
      ),
      text(readyWords(ready.length, cards.length), STRONG),
      ...report.cautions.map((caution) => text(caution, TEXT)),
    ),
    tableBlock('Cards, by storey', 'cards', columns, rows),
    tableBlock(
      'Penetrations without a card',
      'without',
      others,
      without.map(({ penetration, because }) =>
        tableRow(others, [[{ text: penetration.tag, style: STRONG }], [{ text: because, style: TEXT }]]),
      ),
    ),
  ];
}
