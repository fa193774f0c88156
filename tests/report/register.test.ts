import { strFromU8, unzipSync } from 'fflate';
import { afterEach, describe, expect, it } from 'vitest';
import { writeRegister } from '../../src/report/register.js';
import type { Report } from '../../src/report/schema.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, onBarrier, onPenetration, unreadable } from './factories.js';
import { type ReadSheet, readXlsx } from './read-xlsx.js';

const read = async (report: Report) => readXlsx(await writeRegister(report));
const sheetOf = async (report: Report, name: string): Promise<ReadSheet> =>
  (await read(report)).sheets.find((sheet) => sheet.name === name)!;

/** Rows as objects, by the header of their column. */
function records({ rows, frozenRows }: ReadSheet): Record<string, string | number | boolean>[] {
  const header = rows[frozenRows - 1]!.map((cell) => String(cell?.value));
  return rows
    .slice(frozenRows)
    .map((row) => Object.fromEntries(row.flatMap((cell, i) => (cell ? [[header[i]!, cell.value]] : []))));
}

const report = () =>
  aReport({
    penetrations: [
      aPenetration(1, {
        skew: 2.25,
        neighbours: [{ penetration: 'P-0002', distance: 80.5 }],
        others: [
          { model: 'm1', globalId: 'pipe-1', kind: 'pipe' },
          { model: 'm1', globalId: 'pipe-2', kind: 'pipe' },
          { model: 'm1', globalId: 'tray-1', kind: 'cable' },
        ],
      }),
      aPenetration(2, {
        opening: null,
        gaps: { top: null, bottom: null, left: null, right: null, min: null, max: null, facing: {} },
        duct: aDuct({ globalId: 'duct-2', shape: 'circular', width: null, height: null, diameter: 315, system: null }),
        barrier: aBarrier({ globalId: 'wall-2', name: 'Store wall', rating: unreadable, thickness: null }),
      }),
    ],
    findings: [
      aFinding('gap', {
        subject: onPenetration(1),
        side: 'bottom',
        measured: 70.5,
        limit: { atLeast: 10, atMost: 50 },
        margin: -20.5,
        message: 'The bottom gap is 70.5 mm.',
        remedy: 'Move it.',
      }),
      aFinding('rating', {
        outcome: 'cantTell',
        subject: onBarrier('wall-2'),
        measured: 'FR 1hr (TBC)',
        missing: ['barrier.rating'],
      }),
    ],
  });

describe('the sheet Register', () => {
  it('has a row for each penetration', async () => {
    const [first, second, ...others] = records(await sheetOf(report(), 'Register'));
    expect(others).toEqual([]);
    expect(first).toEqual({
      Tag: 'TAG1-9',
      Id: 'P-0001',
      Outcome: 'Failed',
      Failed: 1,
      "Can't tell": 0,
      Storey: 'Level 1',
      Barrier: 'W-12',
      Kind: 'wall',
      'Integrity required (min)': 120,
      'Insulation required (min)': 120,
      'Joint before side A (mm)': 1000,
      'Joint before side B (mm)': 1000,
      Remedy: 'Move it.',
      Construction: 'steel studs',
      'Thickness (mm)': 128,
      'Rated leaf (mm)': 128,
      'Rating as stated': '-/120/120',
      Rating: 'stated',
      'Integrity (min)': 120,
      'Insulation (min)': 120,
      Duct: 'Duct 1',
      System: 'KX',
      Shape: 'rectangular',
      'Duct width (mm)': 600,
      'Duct height (mm)': 400,
      Crossing: 'through',
      'Skew (°)': 2.25,
      Opening: 'rectangular',
      'Opening width (mm)': 700,
      'Opening height (mm)': 500,
      'Gap top (mm)': 30,
      'Gap bottom (mm)': 70,
      'Gap left (mm)': 60,
      'Gap right (mm)': 40,
      'Gap min (mm)': 30,
      'Gap max (mm)': 70,
      'Gaps to': 'unknown',
      Treatment: 'unknown',
      'Other services in the opening': '2 pipes, 1 cable',
      Neighbours: 'TAG2-9 at 80.5 mm',
      'x (mm)': 3000,
      'y (mm)': 0,
      'z (mm)': 2000,
      'Duct GlobalId': 'duct-1',
      'Duct file': 'services.ifc',
      'Barrier GlobalId': 'wall-1',
      'Barrier file': 'architecture.ifc',
      'Opening GlobalId': 'opening-1',
      Key: 'key-1',
    });
    expect(second).toMatchObject({
      Outcome: "Can't tell",
      "Can't tell": 1,
      'Rating as stated': 'FR 1hr (TBC)',
      Rating: 'unreadable',
      'Duct diameter (mm)': 315,
      Opening: 'none modelled',
    });
    // Unknown is an empty cell, never 0.
    for (const name of ['Duct width (mm)', 'Thickness (mm)', 'Gap min (mm)', 'Integrity (min)', 'System']) {
      expect(second).not.toHaveProperty(name);
    }
  });

  it('names the revision beside the tag, grid lines and rooms; has columns that people fill in, and filters', async () => {
    const place = {
      grid: 'C + 1.2 m / 4',
      rooms: [{ model: 'm2', globalId: 's', name: 'G.05 Kitchen' }, null],
    } as const;
    const sheet = await sheetOf(aReport({ revision: 'B', penetrations: [aPenetration(1, { place })] }), 'Register');
    const header = sheet.rows[0]!.map((head) => head?.value);
    expect(header.slice(0, 2)).toEqual(['Tag', 'Revision']);
    for (const name of ['Installer', 'Date', 'Inspector', 'Photo', 'As-built gap top (mm)', 'As-built gap right (mm)'])
      expect(header).toContain(name);
    const [row] = records(sheet);
    expect(row).toMatchObject({ Revision: 'B', Grid: 'C + 1.2 m / 4', 'Room on side A': 'G.05 Kitchen' });
    expect(row).not.toHaveProperty('Room on side B');
    // Columns past Z have two letters.
    const last = String.fromCharCode(64 + Math.floor((header.length - 1) / 26), 65 + ((header.length - 1) % 26));
    expect(sheet.xml).toMatch(new RegExp(`</sheetData><autoFilter ref="A1:${last}2"/>`));
    expect((await sheetOf(report(), 'Findings')).xml).toContain('<autoFilter ref="A1:');
    expect((await sheetOf(report(), 'Read me')).xml).not.toContain('<autoFilter');
  });

  it('has real numbers with formats, a frozen header and a width for each column', async () => {
    const sheet = await sheetOf(report(), 'Register');
    const cells = Object.fromEntries(sheet.rows[0]!.map((head, i) => [head?.value, sheet.rows[1]![i]]));
    expect(cells['Gap bottom (mm)']).toEqual({ type: 'n', value: 70, format: '0.0' });
    expect(cells['Skew (°)']).toEqual({ type: 'n', value: 2.25, format: '0.00' });
    expect(cells.Tag).toEqual({ type: 's', value: 'TAG1-9', format: '@' });
    expect(sheet.frozenRows).toBe(1);
    expect(sheet.widths).toHaveLength(sheet.rows[0]!.length);
  });
});

describe('the sheet Findings', () => {
  it('has a row for each finding, with its check and its place', async () => {
    const [gap, rating] = records(await sheetOf(report(), 'Findings'));
    expect(gap).toEqual({
      Id: 'F-0001',
      Outcome: 'Failed',
      Check: 'Gap within range',
      About: 'penetration',
      Tag: 'TAG1-9',
      Storey: 'Level 1',
      Barrier: 'W-12',
      Duct: 'KX, 600 × 400',
      Side: 'bottom',
      Measured: 70.5,
      Allowed: '10 to 50',
      Margin: -20.5,
      Unit: 'mm',
      Message: 'The bottom gap is 70.5 mm.',
      Remedy: 'Move it.',
      Basis: 'common practice',
      'Basis status': 'unverified (proves nothing)',
      Elements: 'services.ifc: duct-1, architecture.ifc: wall-1',
      Key: 'finding-key',
    });
    expect(rating).toMatchObject({
      Outcome: "Can't tell",
      About: 'barrier',
      Tag: 'TAG2-9',
      Barrier: 'Store wall',
      Measured: 'FR 1hr (TBC)',
      Missing: 'barrier.rating',
    });
    expect(rating).not.toHaveProperty('Duct');
  });
});

describe('the sheet Read me', () => {
  it('says what the register is not, from what, when, by which rules, and the counts', async () => {
    const values = (await sheetOf(report(), 'Read me')).rows.map((row) => row.map((cell) => cell?.value ?? null));
    for (const caution of report().cautions) expect(values).toContainEqual(['Caution', caution]);
    expect(values).toContainEqual(['Created', '2026-01-02T03:04:05Z']);
    expect(values).toContainEqual(['Tool', 'ratedrun 0.1.0']);
    expect(values).toContainEqual(['Brief', 'the default brief']);
    expect(values).toContainEqual(['Penetrations', 2]);
    expect(values).toContainEqual(['Failed', 1, 1]);
    expect(values).toContainEqual(["Can't tell", 1, 1]);
    expect(values).toContainEqual([
      'practice',
      'practice.yaml',
      '1',
      'unverified (proves nothing)',
      'common practice, no source',
    ]);
    expect(values.find((row) => row[0] === 'm2')?.slice(1, 4)).toEqual(['architecture.ifc', 'IFC4', 'MILLIMETRE']);
  });
});

describe('a demonstration', () => {
  it('is stamped on every sheet, above the header that stays in sight', async () => {
    const brief = { file: 'brief.yaml', sha256: 'c'.repeat(64), demonstration: true };
    const { sheets } = await read(aReport({ brief }));
    expect(sheets.map((s) => s.name)).toEqual([
      'Register',
      'Findings',
      'Strategy',
      'Supports',
      'Access',
      'Evidence',
      'Read me',
    ]);
    for (const sheet of sheets) expect(sheet.rows[0]![0]?.value).toMatch(/^DEMONSTRATION DATA/);
    expect(sheets.map((s) => s.frozenRows)).toEqual([2, 2, 2, 2, 2, 2, 1]);
    expect(records(sheets[0]!)[0]).toMatchObject({ Tag: 'TAG1-9' });
  });
  it('is stamped nowhere else', async () => {
    for (const sheet of (await read(report())).sheets)
      expect(sheet.xml + JSON.stringify(sheet.rows)).not.toMatch(/DEMONSTRATION/);
  });
});

describe('text from models', () => {
  const named = async (name: string) => {
    const sheet = await sheetOf(
      aReport({ penetrations: [aPenetration(1, { barrier: aBarrier({ name }) })] }),
      'Register',
    );
    const column = sheet.rows[0]!.findIndex((head) => head?.value === 'Barrier');
    return { cell: sheet.rows[1]![column], xml: sheet.xml };
  };
  it.each([
    '=1+1',
    '+1',
    '-1',
    '@SUM(A1)',
    '=HYPERLINK("http://example.invalid","x")',
    "=cmd|'/c calc'!A1",
    '\t=1+1',
    '\n=1+1',
    '  =1+1',
    '＝1+1',
  ])('%j is a text cell, no formula', async (name) => {
    const { cell, xml } = await named(name);
    expect(cell).toMatchObject({ type: 's', value: name, format: '@' });
    expect(xml).not.toContain('<f');
  });
  it.each([
    ['<b>&amp;</b> "quoted"', '<b>&amp;</b> "quoted"'],
    ['a\u0000b\u0007c\u001bd\ufffee', 'abcde'],
    ['half \ud800 pair', 'half  pair'],
    ['whole 🔥 pair', 'whole 🔥 pair'],
    ['_x0041_ is no A', '_x0041_ is no A'],
    ['constructor', 'constructor'],
    ['__proto__', '__proto__'],
    ['toString', 'toString'],
    ['耐火 Café “W”', '耐火 Café “W”'],
  ])('%j reads back as %j', async (name, value) => {
    expect((await named(name)).cell).toMatchObject({ type: 's', value });
  });
  it('is cut to what a cell can hold', async () => {
    const { cell } = await named('x'.repeat(40_000));
    expect(cell?.value).toBe(`${'x'.repeat(32_766)}…`);
    // The format "text" would show long texts as ####.
    expect(cell?.format).not.toBe('@');
  });
  it('leaves no character that XML 1.0 forbids in any file', async () => {
    const everything = Array.from({ length: 0x20 }, (_, i) => String.fromCharCode(i)).join('');
    const bytes = await writeRegister(aReport({ penetrations: [aPenetration(1, { tag: everything })] }));
    for (const content of Object.values(unzipSync(bytes))) {
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what XML forbids
      expect(strFromU8(content)).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/);
    }
  });
});

describe('the bytes', () => {
  const zone = process.env.TZ;
  afterEach(() => {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  });
  it('are the same for the same input, on any day and in any time zone', async () => {
    const bytes: Uint8Array[] = [];
    for (const [tz, offset] of [
      ['UTC', 0],
      ['America/St_Johns', 210],
      ['Pacific/Auckland', -780],
    ] as const) {
      process.env.TZ = tz;
      expect(new Date('2026-01-02T03:04:05Z').getTimezoneOffset()).toBe(offset);
      bytes.push(await writeRegister(report()));
    }
    expect(bytes[1]).toEqual(bytes[0]);
    expect(bytes[2]).toEqual(bytes[0]);
  });
  it('date the entries by the report, also where zip has no such year', async () => {
    // Zip local header: the DOS date stands at offset 12, years from 1980 in its upper seven bits.
    const year = (zip: Uint8Array) => 1980 + (zip[13]! >> 1);
    expect(year(await writeRegister(report()))).toBe(2026);
    expect(year(await writeRegister(aReport({ createdAt: '1970-01-01T00:00:00Z' })))).toBe(1980);
    expect(year(await writeRegister(aReport({ createdAt: '2999-12-31T00:00:00Z' })))).toBe(2099);
  });
  it('come out whole for a big project', async () => {
    const penetrations = Array.from({ length: 2_000 }, (_, i) =>
      aPenetration(i + 1, { id: `P-${i + 1}`, tag: `T${i}` }),
    );
    const findings = penetrations.map(({ id }, i) =>
      aFinding('gap', {
        subject: { type: 'penetration', id, elements: [] },
        message: `Message ${i} with its own words.`,
      }),
    );
    const { sheets } = await read(aReport({ penetrations, findings }));
    expect(sheets[0]!.rows).toHaveLength(2_001);
    expect(sheets[1]!.rows).toHaveLength(2_001);
  });
});
