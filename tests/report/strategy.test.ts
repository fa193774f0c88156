/** The strategy table of the demo building: the same in report.json, report.html and register.xlsx. */
import { parse, type DefaultTreeAdapterTypes as Tree } from 'parse5';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeHtml } from '../../src/report/html.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { writeRegister } from '../../src/report/register.js';
import type { Report } from '../../src/report/schema.js';
import { strategyWords } from '../../src/report/strategy-words.js';
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

function textOf(node: Tree.Node): string {
  if ('value' in node) return node.value;
  return 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';
}
