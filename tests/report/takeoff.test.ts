/** The take-off in report.json, register.xlsx and report.html: read back by others, and held against each other. */
import { beforeAll, describe, expect, it } from 'vitest';
import { aTakeoff } from '../quantify/made-takeoff.js';
import { named, read, sections, textOf } from './read-html.js';
import { fromJson, html, type Row, reportOf, sheets, tables } from './read-takeoff.js';

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
    text = await html(report);
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
      // It lies across the roll: what is cut is 605.5 long all the same. The rest of that roll is not worth keeping.
      ['P2', 605.5, 610, 1, 1, true, 'R-001'],
      ['P1', 340, null, 4, 4, null, 'TAG1-9'],
      [null, 4628, null, 1, 1, null, null],
    ]);
    const [blanketParts, blanketPatterns, angleParts, anglePatterns] = tables(text, 'cutting').values();
    expect([...blanketParts!, ...angleParts!].map((row) => Object.values(row))).toEqual([
      ['P1', '2200 × 610', '3', 'TAG1-9'],
      ['P2', '605.5 × 610', '1', 'R-001'],
      ['P1', '340', '4, 2 for one piece', 'TAG1-9'],
    ]);
    expect([...blanketPatterns!, ...anglePatterns!].map((row) => Object.values(row))).toEqual([
      ['1', '1', 'roll 7320 x 610', '3 × P1', '1 × (720 × 610)'],
      ['2', '1', 'roll 7320 x 610', '1 × P2 turned', ''],
      ['1', '1', 'bar 6000', '4 × P1', '1 × (4628)'],
    ]);
  });

  it('are drawn, a picture for each sheet of paper, and those of a long plan as far as people look', async () => {
    const pictures = sections(read(text), 'sheet');
    expect(pictures).toHaveLength(2);
    for (const part of ['P1', 'P2']) expect(textOf(pictures[0]!)).toContain(part);
    expect(textOf(pictures[1]!)).toContain('Angle 40 x 40 x 1.5');
    const [first] = report.takeoff!.cutting;
    const patterns = Array.from({ length: 200 }, () => first!.plan.patterns[0]!);
    const long = reportOf({}, { cutting: [{ ...first!, plan: { ...first!.plan, patterns } }] });
    const many = sections(read(await html(long)), 'sheet').map(textOf);
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
          /^What is built in costs, without waste, as part of .* not besides it: 174\.98 EUR\. At least/,
        ),
        'Hours of work by the rates of the brief: 1.758. At least: 4 of 6 items have no rate.',
        'These hours cost: 114.28 EUR. At least: 4 of 6 items have no price.',
      ]),
    );
  });
});
