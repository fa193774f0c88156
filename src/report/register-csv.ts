/**
 * register.csv: the columns of the register sheet as RFC 4180 has them (commas, quotes doubled, CRLF, one header line),
 * in UTF-8 with a byte order mark, without which spreadsheet programs take a code page of their own.
 */
import { number, printable } from '../words/text.js';
import { penetrationRows } from './register.js';
import { REGISTER_COLUMNS } from './register-columns.js';
import type { Report } from './schema.js';
import { DEMONSTRATION } from './words.js';
import type { Value } from './workbook.js';

const BYTE_ORDER_MARK = '\ufeff';

export function writeRegisterCsv(report: Report): Uint8Array {
  // Rows get sorted and cut apart, so each carries the stamp.
  const stamp = report.demonstration ? { header: 'Note', text: DEMONSTRATION } : undefined;
  const header = [...(stamp ? [stamp.header] : []), ...REGISTER_COLUMNS.map((column) => column.header)];
  const rows = penetrationRows(report).map((row) => [
    ...(stamp ? [stamp.text] : []),
    ...REGISTER_COLUMNS.map(({ value }) => value(row)),
  ]);
  const lines = [header, ...rows].map((cells) => `${cells.map(field).join(',')}\r\n`);
  return new TextEncoder().encode(BYTE_ORDER_MARK + lines.join(''));
}

/**
 * What spreadsheet programs take for the start of a formula, whatever the quotes (OWASP, CSV Injection): at the start of a
 * text, and within it after what separates cells and lines where the program is told another separator than the comma.
 */
const FORMULA = /(?<=^|[;\n])(?=\s*[=+\-@＝＋－＠])/gu;

function field(value: Value): string {
  if (value === null) return '';
  if (typeof value === 'number') return number(value);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const text = printable(value)
    .replace(FORMULA, "'")
    .replace(/\p{Surrogate}/gu, '\ufffd');
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}
