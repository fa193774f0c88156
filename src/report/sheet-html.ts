/** Sheets for proof-readers as HTML: self-contained, made for A4 paper and a pencil. */
import type { FontFace } from '../draw/paper/font-face.js';
import { RULE, SECONDARY } from '../draw/paper/palette.js';
import { LINE_HEADS, type Sheet, type SheetBlock, type SheetCell, type SheetTable } from '../rules/index.js';
import { htmlFile, list, paragraph, sentence, table, tag, text } from './html-markup.js';
import { styleSheet } from './html-style.js';
import {
  CHECKED,
  SHEET_CAUTION_IN_BRIEF,
  SHEET_CAUTIONS,
  SIGNATURES,
  type SignedSheet,
  stampOf,
} from './sheet-texts.js';

export function writeSheetHtml(sheets: readonly SignedSheet<Sheet>[], fonts: readonly FontFace[]): Uint8Array {
  const titles = sheets.map(({ sheet }) => sheet.title).join(', ');
  const running = {
    project: titles,
    edition: 'Sheet for proof-reading',
    stamp: stampOf(sheets.some(({ sheet }) => sheet.isDemonstration))?.split(':')[0] ?? null,
    caution: SHEET_CAUTION_IN_BRIEF,
  };
  return htmlFile(`For proof-reading: ${titles}`, `${styleSheet(running, fonts)}\n${STYLE}`, sheets.map(section));
}

function section({ sheet, sha256 }: SignedSheet<Sheet>): string {
  const stamp = stampOf(sheet.isDemonstration);
  const head = [...sheet.head, ['File', sheet.file], ['SHA-256', sha256]] as const;
  const rows = head.map(([label, value]) =>
    tag('tr', {}, tag('th', { scope: 'row' }, sentence(label)), tag('td', {}, text(value))),
  );
  return tag(
    'section',
    { class: 'sheet' },
    ...(stamp === null ? [] : [paragraph(stamp, 'stamp')]),
    tag('h1', {}, text(sheet.title)),
    tag('table', { class: 'cover' }, tag('tbody', {}, ...rows)),
    tag(
      'div',
      { class: 'cautions' },
      tag('h3', {}, 'How to read this sheet'),
      list('ul', SHEET_CAUTIONS.map(sentence)),
    ),
    ...sheet.blocks.map(block),
    tag('h2', {}, 'Signed'),
    table('signed', SIGNATURES, [SIGNATURES.map(() => ''), SIGNATURES.map(() => '')]),
    paragraph(SHEET_CAUTION_IN_BRIEF, 'foot'),
  );
}

const block = (given: SheetBlock): string =>
  'heading' in given ? tag(`h${given.level}`, {}, sentence(given.heading)) : lines(given);

/** What is not stated is there to be read too: a line that is missing from the report is one to find. */
const lines = ({ heads, rows, note }: SheetTable): string =>
  table(
    heads === LINE_HEADS ? 'lines single' : 'lines',
    ['Line', ...heads.map(cell), CHECKED],
    rows.map(({ line, cells, isGiven }) => [
      String(line ?? ''),
      ...cells.map((one) => (isGiven ? cell(one) : tag('span', { class: 'absent' }, cell(one)))),
      tag('span', { class: 'tick' }),
    ]),
  ) + (note === undefined ? '' : paragraph(note, 'absent'));

const cell = ({ text: words, gloss }: SheetCell): string =>
  sentence(words) + (gloss === undefined ? '' : tag('small', {}, sentence(gloss)));

const STYLE = `
section.sheet h1 { margin: 4mm 0 4mm; font-size: 20pt }
section.sheet h2 { margin: 7mm 0 2mm; border-bottom: .75pt solid ${RULE} }
section.sheet h4 { font-size: 9pt; margin: 3mm 0 1mm; break-after: avoid }
table.lines th:first-child { width: 9mm }
table.lines td:first-child { color: ${SECONDARY}; text-align: right }
table.lines th:last-child { width: 24mm }
table.single th:nth-child(2) { width: 32% }
table.single th:nth-child(4) { width: 24% }
table.lines small { display: block; font-size: 7pt; font-weight: normal; color: ${SECONDARY} }
.absent { color: ${SECONDARY}; font-style: italic }
.tick { display: inline-block; width: 3.2mm; height: 3.2mm; border: .75pt solid currentColor }
table.signed td { height: 12mm }
`;
