/** Reports with a take-off, and how others read what is printed of it. */
import { once } from '../../src/collect.js';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeHtml } from '../../src/report/html.js';
import { writeJson } from '../../src/report/json.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { writeRegister } from '../../src/report/register.js';
import { parseReport, type Report, type ReportTakeoff } from '../../src/report/schema.js';
import { aTakeoff, type Made } from '../quantify/made-takeoff.js';
import { aPenetration, aReport } from './factories.js';
import { all, named, read, sections, textOf } from './read-html.js';
import { type ReadSheet, readXlsx } from './read-xlsx.js';

export const reportOf = (made?: Made, changes: Partial<ReportTakeoff> = {}): Report =>
  aReport({ penetrations: [aPenetration(1), aPenetration(2)], takeoff: { ...aTakeoff(made), ...changes } });
export const fromJson = (report: Report): ReportTakeoff =>
  parseReport(JSON.parse(new TextDecoder().decode(writeJson(report)))).takeoff!;
const fonts = once(loadFonts);
export const html = async (report: Report): Promise<string> =>
  new TextDecoder().decode(writeHtml(report, { fonts: await fonts(), openings: openingRequests(report) }));

export type Row = Readonly<Record<string, string | number | boolean | null>>;

export async function sheets(report: Report): Promise<(name: string) => Row[]> {
  const book = readXlsx(await writeRegister(report)).sheets;
  return (name) => rowsOf(book.find((one) => one.name === name)!);
}

function rowsOf({ rows }: ReadSheet): Row[] {
  const [heads = [], ...body] = rows;
  return body.map((row) => Object.fromEntries(heads.map((head, i) => [String(head?.value), row[i]?.value ?? null])));
}

/** Tables of a section by the heading before them, each row by the words of its head. */
export function tables(text: string, className: string): ReadonlyMap<string, Row[]> {
  const found = new Map<string, Row[]>();
  let heading = '';
  for (const element of all(sections(read(text), className)[0]!)) {
    if (element.tagName === 'h3') heading = textOf(element);
    if (element.tagName !== 'table') continue;
    const heads = named(element, 'th').map(textOf);
    const body = named(element, 'tr').slice(1);
    found.set(
      found.has(heading) ? `${heading}, ${found.size}` : heading,
      body.map((tr) => Object.fromEntries(named(tr, 'td').map((td, i) => [heads[i]!, textOf(td)]))),
    );
  }
  return found;
}
