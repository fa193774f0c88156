/** Reads back what the register writes, from the XML itself, as a spreadsheet program would. */
import { strFromU8, unzipSync } from 'fflate';

export interface ReadCell {
  /** `s`: text, `n`: number, `b`: yes or no. */
  readonly type: string;
  readonly value: string | number | boolean;
  /** Number format code of the cell's style. */
  readonly format: string | undefined;
}
export interface ReadSheet {
  readonly name: string;
  /** By row, then column, both from 0. */
  readonly rows: readonly (readonly (ReadCell | null)[])[];
  readonly frozenRows: number;
  readonly widths: readonly number[];
  readonly xml: string;
}

export function readXlsx(bytes: Uint8Array): {
  readonly sheets: readonly ReadSheet[];
  readonly files: readonly string[];
} {
  const entries = unzipSync(bytes);
  const file = (path: string) => strFromU8(entries[path] ?? new Uint8Array());
  const texts = all(file('xl/sharedStrings.xml'), /<si>(?:<t[^>]*>([\s\S]*?)<\/t>|<t[^>]*\/>)<\/si>/g).map(([, t]) =>
    plain(t ?? ''),
  );
  const formats = cellFormats(file('xl/styles.xml'));
  const names = all(file('xl/workbook.xml'), /<sheet [^>]*name="([^"]*)"/g).map(([, name]) => plain(name!));
  return {
    sheets: names.map((name, i) => readSheet(name, file(`xl/worksheets/sheet${i + 1}.xml`), texts, formats)),
    files: Object.keys(entries),
  };
}

function readSheet(
  name: string,
  xml: string,
  texts: readonly string[],
  formats: readonly (string | undefined)[],
): ReadSheet {
  const rows: (ReadCell | null)[][] = [];
  for (const [, attributes, value] of all(xml, /<c ([^>]*?)(?:\/>|>(?:<v>([\s\S]*?)<\/v>)?<\/c>)/g)) {
    if (value === undefined) continue;
    const [, letters, row] = /\br="([A-Z]+)(\d+)"/.exec(attributes!)!;
    const type = /\bt="(\w+)"/.exec(attributes!)?.[1] ?? 'n';
    const format = formats[Number(/\bs="(\d+)"/.exec(attributes!)?.[1] ?? 0)];
    const column = [...letters!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
    rows[Number(row) - 1] ??= [];
    const cells = rows[Number(row) - 1]!;
    while (cells.length <= column) cells.push(null);
    cells[column] = {
      type,
      value: type === 's' ? texts[Number(value)]! : type === 'b' ? value === '1' : Number(value),
      format,
    };
  }
  for (let i = 0; i < rows.length; i++) rows[i] ??= [];
  return {
    name,
    rows,
    frozenRows: Number(/<pane [^>]*ySplit="(\d+)"[^>]*state="frozen"/.exec(xml)?.[1] ?? 0),
    widths: all(xml, /<col [^>]*width="([\d.]+)"/g).map(([, width]) => Number(width)),
    xml,
  };
}

function cellFormats(styles: string): (string | undefined)[] {
  const codes = new Map(
    all(styles, /<numFmt numFmtId="(\d+)" formatCode="([^"]*)"/g).map(([, id, code]) => [id, plain(code!)]),
  );
  const inUse = /<cellXfs[\s\S]*?<\/cellXfs>/.exec(styles)?.[0] ?? '';
  return all(inUse, /<xf\b[^>]*>/g).map(([xf]) => codes.get(/numFmtId="(\d+)"/.exec(xf)?.[1] ?? ''));
}

const all = (text: string, pattern: RegExp) => [...text.matchAll(pattern)];

/** XML entities, then the escapes of ST_Xstring (ECMA-376 Part 1, 22.9.2.19: `_xHHHH_`). */
function plain(text: string): string {
  return text
    .replace(
      /&(lt|gt|quot|apos|amp);/g,
      (_, name: string) => ({ lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' })[name]!,
    )
    .replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}
