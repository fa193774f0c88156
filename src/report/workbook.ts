/** Sheets of plain cells as the bytes of an .xlsx file: no formulas, no macros, the same bytes for the same cells. */
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import writeXlsxFile, { type Cell, type Sheet } from 'write-excel-file/universal';
import { zipTime } from './zip-time.js';

export type Value = string | number | boolean | null;

export interface Column<Row> {
  readonly header: string;
  /** In characters. */
  readonly width: number;
  /** Number format, e.g. `0.0`; whole numbers when left out. */
  readonly format?: string;
  readonly value: (row: Row) => Value;
}

export interface Table {
  readonly name: string;
  readonly widths: readonly number[];
  /** Rows at the top that stay in sight. */
  readonly frozen: number;
  /** The last of the frozen rows is a header to filter by. */
  readonly filtered?: boolean;
  readonly rows: readonly (readonly Cell[])[];
}

/** A table with a header row over one row for each item, and a stamp above it where there is one. */
export function table<Row>(
  name: string,
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  stamp: string | null,
): Table {
  const top = stamp === null ? [] : [[heading(stamp)]];
  const header = columns.map((column) => heading(column.header));
  const body = rows.map((row) => columns.map(({ value, format }) => cell(value(row), format)));
  return {
    name,
    widths: columns.map((c) => c.width),
    frozen: top.length + 1,
    filtered: true,
    rows: [...top, header, ...body],
  };
}

export function heading(text: string): Cell {
  return { type: String, value: plain(text), fontWeight: 'bold', alignVertical: 'top' };
}

/** Text stays text whatever it begins with: it is never written as a formula, nor read as one when a cell is edited. */
export function cell(value: Value, format = '0'): Cell {
  if (value === null || value === '') return null;
  if (typeof value === 'boolean') return { type: Boolean, value, alignVertical: 'top' };
  if (typeof value === 'number') return { type: Number, value, format, alignVertical: 'top' };
  const text = plain(value);
  // Cells of the format "text" show long texts as ####.
  const asText = text.length <= 255 ? { format: '@' } : {};
  return { type: String, value: text, ...asText, wrap: text.length > 40, alignVertical: 'top' };
}

/** Longest text that a cell can hold. */
const CELL_LENGTH = 32_767;

/** Without what XML 1.0 forbids; `_x0041_` would be read as an escaped "A", so its first mark is escaped itself. */
function plain(text: string): string {
  const allowed = text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what XML forbids
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/gu, '')
    .replace(/\p{Surrogate}/gu, '')
    .replace(/_(?=x[0-9a-f]{4}_)/giu, '_x005F_');
  const fitting = allowed.length <= CELL_LENGTH ? allowed : `${allowed.slice(0, CELL_LENGTH - 1)}…`;
  // The writer keeps its texts as keys of a plain object, where names such as "constructor" are taken. It drops the
  // control character again when it writes the text.
  return fitting in {} ? `${fitting}\u0001` : fitting;
}

/**
 * @param createdAt ISO time; gives the date of the entries in the zip, so that the bytes do not depend on the clock.
 */
export async function writeWorkbook(tables: readonly Table[], createdAt: string): Promise<Uint8Array> {
  const sheets: Sheet<Blob>[] = tables.map(({ name, widths, frozen, rows }) => ({
    sheet: name,
    data: rows.map((row) => [...row]),
    columns: widths.map((width) => ({ width })),
    stickyRowsCount: frozen,
    orientation: 'landscape',
  }));
  const blob = await writeXlsxFile(sheets).toBlob();
  const entries = unzipSync(new Uint8Array(await blob.arrayBuffer()));
  const files: Zippable = {};
  for (const [path, bytes] of Object.entries(entries)) files[path] = bytes;
  for (const [i, one] of tables.entries())
    if (one.filtered) files[sheetPath(i)] = withFilter(entries[sheetPath(i)]!, one);
  return zipSync(files, { mtime: zipTime(createdAt) });
}

const sheetPath = (index: number): string => `xl/worksheets/sheet${index + 1}.xml`;

/** The writer knows no filters. In a sheet they follow the data (ECMA-376 Part 1, 18.3.1.99, CT_Worksheet). */
function withFilter(sheet: Uint8Array, { frozen, rows, widths }: Table): Uint8Array {
  const range = `A${frozen}:${columnName(widths.length)}${Math.max(frozen, rows.length)}`;
  const [before, after, ...more] = strFromU8(sheet).split('</sheetData>');
  if (before === undefined || after === undefined || more.length > 0)
    throw new Error('the sheet has not one sheetData');
  return strToU8(`${before}</sheetData><autoFilter ref="${range}"/>${after}`);
}

/** A to Z, AA, AB …; from 1. */
function columnName(number: number): string {
  const rest = number - 1;
  return `${rest >= 26 ? columnName(Math.floor(rest / 26)) : ''}${String.fromCharCode(65 + (rest % 26))}`;
}
