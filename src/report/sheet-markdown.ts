/** Sheets for proof-readers as Markdown tables. */
import type { Sheet, SheetBlock, SheetCell, SheetTable } from '../rules/index.js';
import { oneLine } from '../words/text.js';
import { CHECKED, SHEET_CAUTIONS, SIGNATURES, type SignedSheet, stampOf } from './sheet-texts.js';

export const writeSheetMarkdown = (sheets: readonly SignedSheet<Sheet>[]): string => sheets.map(document).join('\n');

function document({ sheet, sha256 }: SignedSheet<Sheet>): string {
  const stamp = stampOf(sheet.isDemonstration);
  const head = [...sheet.head, ['File', sheet.file], ['SHA-256', sha256]] as const;
  return [
    `# ${plain(sheet.title)}`,
    ...(stamp === null ? [] : [`**${plain(stamp)}**`]),
    head.map(([label, value]) => `- ${plain(label)}: ${plain(value)}`).join('\n'),
    SHEET_CAUTIONS.map((caution) => `> ${plain(caution)}`).join('\n>\n'),
    ...sheet.blocks.map(block),
    '## Signed',
    rows(SIGNATURES, [SIGNATURES.map(() => '')]),
    '',
  ].join('\n\n');
}

const block = (given: SheetBlock): string =>
  'heading' in given ? `${'#'.repeat(given.level)} ${plain(given.heading)}` : lines(given);

const lines = ({ heads, rows: given, note }: SheetTable): string =>
  rows(
    ['Line', ...heads.map(cell), CHECKED],
    given.map(({ line, cells }) => [String(line ?? ''), ...cells.map(cell), '☐']),
  ) + (note === undefined ? '' : `\n\n*${plain(note)}*`);

const rows = (heads: readonly string[], body: readonly (readonly string[])[]): string =>
  [heads, heads.map(() => '---'), ...body].map((cells) => `| ${cells.join(' | ')} |`).join('\n');

const cell = ({ text, gloss }: SheetCell): string => plain(text) + (gloss === undefined ? '' : `<br>*${plain(gloss)}*`);

/** Text that can be neither markup, nor a character's name, nor the end of a cell, nor a link that GitHub makes of a bare address. */
const plain = (text: string): string =>
  oneLine(text)
    .replace(/\p{Noncharacter_Code_Point}/gu, '\ufffd')
    .replace(/[\\`*_{}[\]<>|#~@]|:(?=\/\/)|(?<=\bwww)\.|&(?=#?\w+;)/gi, '\\$&');
