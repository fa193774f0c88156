/** The strategy table and the support schedule of the demo building: the same in report.json, report.html and register.xlsx. */
import { parse, type DefaultTreeAdapterTypes as Tree } from 'parse5';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeHtml } from '../../src/report/html.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { writeRegister } from '../../src/report/register.js';
import type { Report } from '../../src/report/schema.js';
import { strategyWords } from '../../src/report/strategy-words.js';
import { SUPPORT_CAUTIONS, supportWords } from '../../src/report/support-words.js';
import { demoReport } from './demo-report.js';
import { readXlsx } from './read-xlsx.js';

let report: Report;
beforeAll(async () => {
  report = await demoReport();
});

describe('the strategy table', () => {
  it('has a row for every part of a run that must hold back fire, and says from where to where', () => {
    const rows = strategyWords(report);
    expect(rows.length).toBe(report.strategy.filter(({ mustResist }) => mustResist !== false).length);
    const kitchen = rows.find(({ system, from }) => system === 'KX' && from.includes('Kitchen'))!;
    expect(kitchen.to).toMatch(/Shaft.*, outside$/);
    expect(kitchen.required).toBe('integrity 120 min, insulation 120 min');
    expect(kitchen.there.join()).toContain('blanket');
    expect(kitchen.lapses).toEqual([]);
    expect(kitchen.reasons.join()).toContain('without a fire damper');
    expect(kitchen.contradictions.join()).toContain('must never have one');
  });

  it('names every penetration of every run once, by the dampers between', () => {
    const listed = report.strategy.flatMap(({ run, crossings }) => crossings.map((one) => `${run} ${one.penetration}`));
    const ofRuns = report.penetrations.filter(({ duct }) => duct.run !== null);
    for (const { id, duct, treatment, barrier } of ofRuns) {
      const times = listed.filter((one) => one === `${duct.run} ${id}`).length;
      const isUnrated = barrier.rating.state === 'notRequired';
      // What shuts stands at the end of what lies before it and of what lies behind.
      const most = treatment.kind === 'damper' || treatment.kind === 'both' ? 2 : 1;
      expect(times, id).toBeGreaterThanOrEqual(isUnrated ? 0 : 1);
      expect(times, id).toBeLessThanOrEqual(most);
    }
  });

  it('contradicts itself by nothing that did not fail', () => {
    const failed = new Set(report.findings.filter(({ outcome }) => outcome === 'failed').map(({ id }) => id));
    for (const { contradictions } of report.strategy) for (const id of contradictions) expect(failed).toContain(id);
  });

  it('says the same on the page and in the workbook', async () => {
    const words = strategyWords(report);
    const bytes = writeHtml(report, { fonts: await loadFonts(), openings: openingRequests(report), revision: null });
    const page = textOf(parse(new TextDecoder().decode(bytes)));
    const sheet = (await readXlsx(await writeRegister(report))).sheets.find(({ name }) => name === 'Strategy')!;
    const cells = sheet.rows.flatMap((row) => row.map((cell) => String(cell?.value ?? '')));
    for (const row of words)
      for (const one of [row.run, row.required, ...row.there, ...row.crossings, ...row.lapses]) {
        expect(page).toContain(one);
        expect(
          cells.some((cell) => cell.includes(one)),
          one,
        ).toBe(true);
      }
  });
});

describe('the support schedule', () => {
  it('has the numbers that a hand calculation has', () => {
    const row = report.supports.find(({ system, length }) => system === 'QX' && length > 3000)!;
    // Sheet of 1 mm: 3 x 7.85; two layers of 38 mm at 128 kg/m³: (1.152 x 0.652 - 0.5) x 128; bearer 1.252 m x 2.42.
    expect([row.sheet.perMetre, row.protection.perMetre, row.perMetre]).toEqual([23.55, 32.14, 55.69]);
    expect([row.bearerLength, row.bearerMass]).toEqual([1252, 3.03]);
    // M10 at 6 N/mm²: (2 x 58 x 6 / 9.81 - 3.03) / 55.69 = 1.2196 m.
    expect(row.spacing).toEqual({ tested: 1500, byStress: 1219, governing: 1219 });
    expect([row.rodStressAllowed, row.rodStressFrom]).toEqual([6, 'system']);
    expect(row.rodStress).toBeCloseTo(6, 1);
    // Half of 8 m: 4000 / 1219, rounded up, and one more.
    expect([row.length, row.needed, row.growthPerMetre]).toEqual([4000, 5, 14.8]);
  });

  it('leaves out what is not known, and what it is for lack of', () => {
    // Nobody states the sheet of stainless steel, and no table has it.
    const kitchen = report.supports.filter(({ system }) => system === 'KX');
    expect(kitchen.length).toBeGreaterThan(0);
    for (const { sheet, perMetre, spacing, load } of kitchen)
      expect([sheet.perMetre, perMetre, spacing.byStress, spacing.governing, load]).toEqual(Array(5).fill(null));
  });

  it('says the same on the page and in the workbook, with its cautions', async () => {
    const bytes = writeHtml(report, { fonts: await loadFonts(), openings: openingRequests(report), revision: null });
    const page = textOf(parse(new TextDecoder().decode(bytes)));
    const { sheets } = await readXlsx(await writeRegister(report));
    const sheet = sheets.find(({ name }) => name === 'Supports')!;
    const cells = sheet.rows.flatMap((row) => row.map((cell) => cell?.value));
    for (const caution of SUPPORT_CAUTIONS) expect(page).toContain(caution);
    for (const words of supportWords(report))
      for (const one of [words.where, words.count, ...words.masses, ...words.spacing, ...words.load])
        expect(page).toContain(one);
    for (const { perMetre, spacing, rodStress } of report.supports)
      for (const value of [perMetre, spacing.governing, rodStress]) if (value !== null) expect(cells).toContain(value);
  });
});

function textOf(node: Tree.Node): string {
  if ('value' in node) return node.value;
  return 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';
}
