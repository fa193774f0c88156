/** register.csv by the grammar of RFC 4180 (section 2), read back by a reader written from it. */
import { expect, it } from 'vitest';
import { REGISTER_COLUMNS } from '../../src/report/register-columns.js';
import { writeRegisterCsv } from '../../src/report/register-csv.js';
import type { Report } from '../../src/report/schema.js';
import { aBarrier, aDuct, aPenetration, aReport } from './factories.js';
import { records } from './read-csv.js';

const textOf = (report: Report) => new TextDecoder('utf-8', { ignoreBOM: true }).decode(writeRegisterCsv(report));

const objects = (report: Report) => {
  const [header, ...rows] = records(textOf(report));
  return rows.map((row) => Object.fromEntries(header!.map((name, i) => [name, row[i]])));
};

it('has the columns of the sheet, a line for each penetration, CRLF and a byte order mark', () => {
  const report = aReport({ revision: 'B', penetrations: [aPenetration(1), aPenetration(2, { skew: 2.25 })] });
  const [header, ...rows] = records(textOf(report));
  expect(header).toEqual(REGISTER_COLUMNS.map((column) => column.header));
  expect(rows.map((row) => row.length)).toEqual([header!.length, header!.length]);
  expect([...writeRegisterCsv(report).subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
  expect(textOf(report)).not.toMatch(/[^\r]\n/);
  expect(objects(report)[1]).toMatchObject({
    ...{ Tag: 'TAG2-9', Revision: 'B', 'Gap bottom (mm)': '70', 'Skew (°)': '2.25', 'Duct diameter (mm)': '' },
    ...{ Installer: '', 'As-built gap top (mm)': '', 'x (mm)': '3000' },
  });
});

it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '＝1', '-/120/120'])('text %j is no formula', (text) => {
  const duct = aDuct({ name: text, system: `${text},"${text}"\n${text}` });
  const [row] = objects(aReport({ penetrations: [aPenetration(1, { duct })] }));
  // What a terminal would obey becomes a blank; a line of its own within a cell is a start too.
  const shown = text.replace(/[\t\r]/g, ' ');
  expect(row!.Duct).toBe(`'${shown}`);
  expect(row!.System).toBe(`'${shown},"${shown}"\n'${shown}`);
});

it('leaves numbers below zero numbers', () => {
  const [row] = objects(aReport({ penetrations: [aPenetration(1, { position: [-1234.5, 0, -0] })] }));
  expect([row!['x (mm)'], row!['y (mm)'], row!['z (mm)']]).toEqual(['-1234.5', '0', '0']);
});

it('keeps names of all scripts, and stamps each row of demonstration data', () => {
  const barrier = aBarrier({ name: 'Wand Küche 耐火 \u{1f600}' });
  const brief = { file: 'brief.yaml', sha256: '0', demonstration: true };
  const [row] = objects(aReport({ brief, penetrations: [aPenetration(1, { barrier })] }));
  expect(row!.Barrier).toBe('Wand Küche 耐火 \u{1f600}');
  expect(row!.Note).toMatch(/^DEMONSTRATION DATA/);
});

it('has no formula where a program is told that the semicolon separates', () => {
  const duct = aDuct({ name: 'a;=1+1;b', system: 'x; -2; y' });
  const [row] = objects(aReport({ penetrations: [aPenetration(1, { duct })] }));
  expect([row!.Duct, row!.System]).toEqual(["a;'=1+1;b", "x;' -2; y"]);
});
