/** The take-off in report.json, register.xlsx, report.html and the summary: read back by others, and held against each other. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { FontFace } from '../../src/draw/paper/font-face.js';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeHtml } from '../../src/report/html.js';
import { writeJson } from '../../src/report/json.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { writeRegister } from '../../src/report/register.js';
import { parseReport, type Report, type ReportTakeoff } from '../../src/report/schema.js';
import { writeSummary } from '../../src/report/summary.js';
import { takeoffLine } from '../../src/report/takeoff-words.js';
import { aTakeoff, type Made } from '../quantify/made-takeoff.js';
import { aPenetration, aReport } from './factories.js';
import { all, named, read, sections, textOf } from './read-html.js';
import { type ReadSheet, readXlsx } from './read-xlsx.js';

let fonts: FontFace[];
beforeAll(async () => {
  fonts = await loadFonts();
});

const reportOf = (made?: Made, changes: Partial<ReportTakeoff> = {}): Report =>
  aReport({ penetrations: [aPenetration(1), aPenetration(2)], takeoff: { ...aTakeoff(made), ...changes } });
const fromJson = (report: Report): ReportTakeoff =>
  parseReport(JSON.parse(new TextDecoder().decode(writeJson(report)))).takeoff!;
const html = (report: Report): string =>
  new TextDecoder().decode(writeHtml(report, { fonts, openings: openingRequests(report) }));

type Row = Readonly<Record<string, string | number | boolean | null>>;

async function sheets(report: Report): Promise<(name: string) => Row[]> {
  const book = readXlsx(await writeRegister(report)).sheets;
  return (name) => rowsOf(book.find((one) => one.name === name)!);
}

function rowsOf({ rows }: ReadSheet): Row[] {
  const [heads = [], ...body] = rows;
  return body.map((row) => Object.fromEntries(heads.map((head, i) => [String(head?.value), row[i]?.value ?? null])));
}

/** Tables of a section by the heading before them, each row by the words of its head. */
function tables(text: string, className: string): ReadonlyMap<string, Row[]> {
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

/** A number as people read it on the page; null: not there, or not known. */
const onPage = (words: string): number | null => {
  const value = words.replace('at least ', '');
  return value === '' || value === 'not known' ? null : Number(value);
};

describe('the same numbers', () => {
  const report = reportOf();
  const takeoff = fromJson(report);
  const nameOf = (id: string) => takeoff.materials.find((one) => one.id === id)!.name;
  const storeyOf = (id: string | null) =>
    takeoff.storeys.find(({ globalId }) => globalId === id)?.name ?? 'storey not known';
  let sheet: (name: string) => Row[];
  let text: string;
  let page: ReadonlyMap<string, Row[]>;
  beforeAll(async () => {
    sheet = await sheets(report);
    text = html(report);
    page = tables(text, 'takeoff');
  });

  it('stand in report.json, where nothing is lost', () => {
    expect(takeoff).toEqual(aTakeoff());
  });

  it('are ordered on page and sheet', () => {
    expect(takeoff.purchases).toHaveLength(4);
    const onSheet = sheet('To buy').map((row) => [
      ...[row.Material, row.Ordered, row.of, row['Amount not known of (items)'], row['Cost of what is ordered (EUR)']],
    ]);
    const measures = ['', 'pieces', '', ''];
    expect(onSheet).toEqual(
      takeoff.purchases.map((one, i) => [
        ...[nameOf(one.material), one.amount, one.unit ?? measures[i], one.unknownIn, one.cost],
      ]),
    );
    expect(page.get('What to buy')!.map((row) => [row.Material, row.Order, row['Cost of the order']])).toEqual([
      [nameOf('blanket-38'), '2 rolls 7320 x 610', '360.00 EUR'],
      ['Pin 75 mm', '48 pieces', '5.76 EUR'],
      ['Sealant', 'at least 2 packs 600 ml', 'no price'],
      ['Angle 40 x 40 x 1.5', '1 bar 6000', 'no price'],
    ]);
  });

  const COLUMNS = {
    pieces: ['Pieces', 'Pieces'],
    lengthM: ['Length (m)', 'Length (m)'],
    areaM2: ['Area (m²)', 'Area (m²)'],
    volumeL: ['Volume (l)', 'Volume (l)'],
    massKg: ['Mass (kg)', 'Mass (kg)'],
    cost: ['Cost of what is built in (EUR)', 'Cost (EUR)'],
    hours: ['Hours', 'Hours'],
    labourCost: ['Cost of labour (EUR)', 'Cost of labour (EUR)'],
  } as const;
  const QUANTITIES = Object.keys(COLUMNS) as (keyof typeof COLUMNS)[];

  it('are those of every item on the sheet', () => {
    const rows = sheet('Materials').filter(({ Row }) => Row === 'pieces');
    expect(rows.map(({ Item }) => Item)).toEqual(takeoff.items.map(({ id }) => id));
    for (const [i, item] of takeoff.items.entries()) {
      expect(QUANTITIES.map((name) => rows[i]![COLUMNS[name][0]])).toEqual(QUANTITIES.map((name) => item[name]));
      expect([rows[i]!['Length of one (mm)'], rows[i]!['Width of one (mm)']]).toEqual([item.length, item.width]);
      expect(rows[i]!['Tag or run']).toBe(
        { 'P-0001': 'TAG1-9', 'P-0002': 'TAG2-9' }[item.penetration ?? ''] ?? item.run,
      );
      expect(rows[i]!.Source).toBe('clause 4.2');
      expect(rows[i]!.Formula).toMatch(/^n = ⌈.*mm$/);
    }
  });

  it.each(['storey', 'system', 'project'] as const)('are those of every total by %s', (by) => {
    const totals = takeoff.totals.filter((one) => one.by === by);
    const rows = sheet('Materials').filter(({ Row }) => Row === `total by ${by}`);
    expect(totals.length).toBeGreaterThan(3);
    expect(rows.map((row) => QUANTITIES.map((name) => row[COLUMNS[name][0]]))).toEqual(
      totals.map((total) => QUANTITIES.map((name) => total[name])),
    );
    if (by === 'project') return;
    const lines = page.get(`What is built in, by ${by}`)!;
    expect(lines.map((row) => QUANTITIES.map((name) => onPage(String(row[COLUMNS[name][1]]))))).toEqual(
      totals.map((total) => QUANTITIES.map((name) => total[name])),
    );
    const places = totals.map(({ id }) => (by === 'storey' ? storeyOf(id) : (id ?? 'system not known')));
    expect(lines.map((row) => row[by === 'storey' ? 'Storey' : 'System'])).toEqual(places);
    expect(rows.map((row) => row[by === 'storey' ? 'Storey' : 'System'])).toEqual(places);
  });

  it('add up on the sheet: pieces to each total', () => {
    const rows = sheet('Materials');
    const pieces = rows.filter(({ Row }) => Row === 'pieces');
    for (const total of rows.filter(({ Row }) => Row !== 'pieces')) {
      const own = pieces.filter(
        (one) =>
          one.Material === total.Material &&
          ['Storey', 'System'].every((key) => total[key] === null || one[key] === total[key]),
      );
      for (const [head] of Object.values(COLUMNS)) {
        const sum = own.reduce((before, one) => before + Number(one[head] ?? 0), 0);
        expect(Number(total[head] ?? 0), `${total.Row} ${head}`).toBeCloseTo(sum, 9);
      }
    }
  });

  it('say what is missing from a sum, on page and sheet', () => {
    const row = sheet('Materials').find((one) => one.Row === 'total by project' && one.Material === 'Sealant')!;
    expect([row['Volume (l)'], row['Left out of the sum']]).toEqual([0.701, 'volume of 1 item not known']);
    const system = page.get('What is built in, by system')!;
    expect(system[0]!['Mass (kg)']).toBe('at least 19.582');
    expect(page.get('What is built in, by storey')![2]!['Volume (l)']).toBe('not known');
  });

  it('are those of the cutting plans', () => {
    const rows = sheet('Cutting list');
    const plans = rows.filter(({ Row }) => Row === 'plan');
    expect(plans.map((row) => [row['Pieces of stock'], row.Gap, row.Waste])).toEqual(
      takeoff.cutting.map(({ plan }) => [plan.used[0]!.pieces, plan.gap, plan.waste]),
    );
    expect(plans.map((row) => [row['Stock (mm)'], row.Proof])).toEqual([
      ['2 rolls 7320 x 610', 'No plan buys less (by hand).'],
      ['1 bar 6000', 'No plan of three cutting stages buys less by more than 1.7 % (by hand).'],
    ]);
    const cuts = rows
      .filter(({ Row }) => Row !== 'plan')
      .map((row) => [
        row.Part,
        row['Length (mm)'],
        row['Width (mm)'],
        row['In each'],
        row.Together,
        row.Turned,
        row.For,
      ]);
    expect(cuts).toEqual([
      ['P1', 2200, 610, 3, 3, null, 'TAG1-9'],
      [null, 720, 610, 1, 1, null, null],
      // It lies across the roll: what is cut is 1415.5 long all the same. The rest of that roll is not worth keeping.
      ['P2', 1415.5, 610, 1, 1, true, 'R-001'],
      ['P1', 340, null, 4, 4, null, 'TAG1-9'],
      [null, 4628, null, 1, 1, null, null],
    ]);
    const [blanketParts, blanketPatterns, angleParts, anglePatterns] = tables(text, 'cutting').values();
    expect([...blanketParts!, ...angleParts!].map((row) => Object.values(row))).toEqual([
      ['P1', '2200 × 610', '3', 'TAG1-9'],
      ['P2', '1415.5 × 610', '1', 'R-001'],
      ['P1', '340', '4, 2 for one piece', 'TAG1-9'],
    ]);
    expect([...blanketPatterns!, ...anglePatterns!].map((row) => Object.values(row))).toEqual([
      ['1', '1', 'roll 7320 x 610', '3 × P1', '1 × (720 × 610)'],
      ['2', '1', 'roll 7320 x 610', '1 × P2 turned', ''],
      ['1', '1', 'bar 6000', '4 × P1', '1 × (4628)'],
    ]);
  });

  it('are drawn, a picture for each sheet of paper, and those of a long plan as far as people look', () => {
    const pictures = sections(read(text), 'sheet');
    expect(pictures).toHaveLength(2);
    for (const part of ['P1', 'P2']) expect(textOf(pictures[0]!)).toContain(part);
    expect(textOf(pictures[1]!)).toContain('Angle 40 x 40 x 1.5');
    const [first] = report.takeoff!.cutting;
    const patterns = Array.from({ length: 200 }, () => first!.plan.patterns[0]!);
    const long = reportOf({}, { cutting: [{ ...first!, plan: { ...first!.plan, patterns } }] });
    const many = sections(read(html(long)), 'sheet').map(textOf);
    expect(many.length).toBeLessThan(12);
    expect(many.at(-1)).toContain('140 more patterns of this plan: the cutting lists have them all.');
    expect(many.at(-2)).not.toContain('more pattern');
  });

  it('name what could not be counted, each place, and what was taken for granted', () => {
    expect(sheet('Not counted').map((row) => [row['Tag or run'], row.Kind, row.What])).toEqual([
      ['TAG1-9', 'screw', 'screws through the angles'],
      ['TAG2-9', 'screw', 'screws through the angles'],
      ['R-001', 'everything', 'protection'],
    ]);
    expect(page.get('What could not be counted')!.map((row) => [row.What, row.Number, row.Where])).toEqual([
      ['screws through the angles', '2', 'TAG1-9, TAG2-9'],
      ['protection', '1', 'R-001'],
    ]);
    expect(page.get('What was taken for granted')!.map((row) => [row.What, row.Value, row.From])).toEqual([
      ['mm that one cut takes away', '3', 'common practice, no source'],
      ['how angles meet', 'mitred', 'brief'],
    ]);
  });

  it('of money say what they are of', () => {
    const costs = sections(read(text), 'takeoff').flatMap((one) => named(one, 'li').map(textOf));
    expect(costs).toEqual(
      expect.arrayContaining([
        'What is ordered, in whole rolls, sheets, bars and packs, costs: 365.76 EUR. At least: 2 of 4 orders have no price.',
        expect.stringMatching(
          /^What is built in costs, without waste, as part of .* not besides it: 194\.00 EUR\. At least/,
        ),
        'Hours of work by the rates of the brief: 1.955. At least: 4 of 6 items have no rate.',
        'These hours cost: 127.13 EUR. At least: 4 of 6 items have no price.',
      ]),
    );
  });
});

describe('where there is little to say', () => {
  it('nothing costs anything without prices, and there are no columns of money on the page', async () => {
    const report = reportOf({ prices: false });
    const text = html(report);
    expect(text).toContain('The brief gives no prices and no rates, so nothing here has a cost or a time.');
    const [page] = sections(read(text), 'takeoff');
    expect(named(page!, 'th').map(textOf).join()).not.toMatch(/Cost|Hours/);
    expect(textOf(page!)).not.toContain('EUR');
    const rows = (await sheets(report))('Materials');
    expect(rows.every((row) => row['Cost of what is built in'] === null && row.Hours === null)).toBe(true);
  });

  it('an empty take-off says so, and none at all is not there', async () => {
    const empty = { materials: [], items: [], totals: [], uncounted: [], cutting: [], purchases: [], allowances: [] };
    const report = reportOf({ prices: false }, empty);
    expect(takeoffLine(report.takeoff!)).toBe('Take-off: nothing was counted.');
    expect(html(report)).toContain('Nothing was counted, so nothing is to be bought.');
    const none = aReport();
    expect(none.takeoff).toBeNull();
    expect(sections(read(html(none)), 'takeoff')).toEqual([]);
    const names = readXlsx(await writeRegister(none)).sheets.map(({ name }) => name);
    expect(names).not.toContain('Materials');
    expect(writeSummary(none, { files: [] })).not.toContain('Take-off');
  });

  it('one line of the summary says it all', () => {
    expect(takeoffLine(reportOf().takeoff!)).toBe(
      'Take-off: 4.89 m² of blanket (2 rolls), at least 0.701 l of sealant (2 packs), 1.36 m of angle (1 bar), 48 pins; 3 things could not be counted.',
    );
    expect(writeSummary(reportOf(), { files: [], width: 1000 })).toContain('\n\nTake-off: 4.89 m² of blanket');
  });

  it('a longer table says how much of it is left out', () => {
    const { purchases } = reportOf().takeoff!;
    const many = Array.from({ length: 450 }, () => purchases[1]!);
    expect(html(reportOf({}, { purchases: many }))).toContain('and 50 more in register.xlsx');
  });
});

describe('hostile names', () => {
  it.each([
    "=cmd|'/c calc'!A1",
    '<script>alert(1)</script>',
    '\u202egnp.exe\u2066 שלום',
    '</td></table></section>',
    'a\u0000b\ud800c\uffff',
    'constructor',
    'x'.repeat(10_000),
  ])('%j stays text', async (name) => {
    const report = reportOf({ name });
    const text = html(report);
    const document = read(text);
    expect(named(document, 'script')).toEqual([]);
    for (const part of ['takeoff', 'cutting']) expect(sections(document, part)).toHaveLength(1);
    expect(all(document).some((one) => one.attrs.some((a) => a.name.startsWith('on')))).toBe(false);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what this is about
    expect(text).not.toMatch(/[\u0000-\u0008\u202a-\u202e\u2066-\u2069\ufffe\uffff]|\p{Surrogate}/u);
    // Every cell with a name lets a long one break, and keeps its direction to itself.
    const cells = sections(document, 'takeoff').flatMap((one) => named(one, 'td'));
    const withName = cells.filter((td) => textOf(td).includes(name.slice(0, 3)) && /[^\w.]/.test(textOf(td)));
    for (const td of withName) expect(named(td, 'bdi').length, textOf(td).slice(0, 50)).toBeGreaterThan(0);
    expect(text.length).toBeLessThan(400_000);
    const book = readXlsx(await writeRegister(report)).sheets;
    const own = book.filter((one) => ['To buy', 'Materials', 'Cutting list', 'Not counted'].includes(one.name));
    expect(own).toHaveLength(4);
    for (const { xml } of own) expect(xml).not.toContain('<f');
    const kept = own.flatMap(({ rows }) => rows.flat()).filter((one) => typeof one?.value === 'string');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what this is about
    const plain = name.replace(/[\u0000\ud800\uffff]/g, '');
    expect(kept.some((one) => one!.value === plain)).toBe(true);
    expect(fromJson(report).items[0]!.source).toBe(name);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what this is about
    expect(writeSummary(report, { files: [] })).not.toMatch(/[\u0000-\u0009\u202a-\u202e]/);
  });
});
