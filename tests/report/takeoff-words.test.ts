/** What the take-off says where there is little to say, in one line, and of hostile names. */
import { describe, expect, it } from 'vitest';
import { writeRegister } from '../../src/report/register.js';
import { writeSummary } from '../../src/report/summary.js';
import { takeoffLine } from '../../src/report/takeoff-words.js';
import { aReport } from './factories.js';
import { all, named, read, sections, textOf } from './read-html.js';
import { fromJson, html, reportOf, sheets } from './read-takeoff.js';
import { readXlsx } from './read-xlsx.js';

describe('where there is little to say', () => {
  it('nothing costs anything without prices, and there are no columns of money on the page', async () => {
    const report = reportOf({ prices: false });
    const text = await html(report);
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
    expect(await html(report)).toContain('Nothing was counted, so nothing is to be bought.');
    const none = aReport();
    expect(none.takeoff).toBeNull();
    expect(sections(read(await html(none)), 'takeoff')).toEqual([]);
    const names = readXlsx(await writeRegister(none)).sheets.map(({ name }) => name);
    expect(names).not.toContain('Materials');
    expect(writeSummary(none, { files: [] })).not.toContain('Take-off');
  });

  it('one line of the summary says it all', () => {
    expect(takeoffLine(reportOf().takeoff!)).toBe(
      'Take-off: 4.4 m² of blanket (2 rolls), at least 0.701 l of sealant (2 packs), 1.36 m of angle (1 bar), 48 pins; 3 things could not be counted.',
    );
    expect(writeSummary(reportOf(), { files: [], width: 1000 })).toContain('\n\nTake-off: 4.4 m² of blanket');
  });

  it('a longer table says how much of it is left out', async () => {
    const { purchases } = reportOf().takeoff!;
    const many = Array.from({ length: 450 }, () => purchases[1]!);
    expect(await html(reportOf({}, { purchases: many }))).toContain('and 50 more in register.xlsx');
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
    const text = await html(report);
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
