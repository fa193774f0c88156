/** The tested details of the demo building's penetrations: what is chosen, what fits, what comes nearest, line by line. */
import { beforeAll, describe, expect, it } from 'vitest';
import { evidenceTables } from '../../src/report/evidence-table.js';
import { writeRegister } from '../../src/report/register.js';
import type { Report, ReportPenetration } from '../../src/report/schema.js';
import { nearestSentences, SCOPE_HEADINGS } from '../../src/report/tested-words.js';
import { rules } from '../shipped-rules.js';
import { demoReport } from './demo-report.js';
import { readXlsx } from './read-xlsx.js';

let report: Report;
beforeAll(async () => {
  report = await demoReport();
});
const at = (duct: string): ReportPenetration['treatment'] =>
  report.penetrations.find((one) => one.duct.name === duct)!.treatment;

describe('in report.json', () => {
  it('every penetration that passes is held against a document, and every line of its scope is met', () => {
    const passed = report.penetrations.filter(({ outcome, treatment }) => outcome === 'passed' && treatment.chosen);
    expect(passed.length).toBeGreaterThan(15);
    for (const { tag, treatment } of passed) {
      const open = treatment.chosen!.scope.filter(({ outcome }) => outcome !== 'met');
      expect(open, tag).toEqual([]);
      // The same detail is among those that fit, whatever is there.
      expect(treatment.feasible.map(({ system, detail }) => `${system} ${detail}`)).toContain(
        `${treatment.chosen!.system} ${treatment.chosen!.detail}`,
      );
    }
  });

  it('a line says what was measured, from where, what was tested and where that stands', () => {
    const gap = at('SA-G-2').chosen!.scope.find(({ name }) => name === 'widestGap');
    // 140 mm on the far left; the demonstration blanket was "tested" to 50 mm.
    expect(gap).toMatchObject({
      ...{ measured: 140, limit: { atLeast: 10, atMost: 50 }, margin: -90, outcome: 'missed' },
      ...{ unit: 'mm', check: 'gap-within-tested-range', from: "the models' geometry" },
      source: rules.systems.find(({ id }) => id === 'demonstration-blanket')!.source,
    });
  });

  it('says of a plenum too wide for any what it misses, by how much', () => {
    const plenum = at('KX-G-5');
    expect(plenum.feasible).toEqual([]);
    // 3700 mm wide, where pins hold, and the blanket was tested on, 3600 mm.
    expect(plenum.nearest[0]!.misses.map(({ name, margin }) => [name, margin])).toEqual([
      ['width', -100],
      ['fixingWidth', -100],
    ]);
    expect(nearestSentences(plenum)[0]).toContain('3700 mm, tested at most 3600 mm, missed by 100 mm');
  });

  it('lists the best first', () => {
    for (const { treatment } of report.penetrations) {
      const tight = treatment.feasible.map(({ tightest }) => tightest!.margin!);
      for (const margin of tight) expect(margin).toBeGreaterThanOrEqual(0);
      expect(treatment.feasible.length * treatment.nearest.length).toBe(0);
    }
  });
});

describe('on paper', () => {
  it('each line of each scope stands in report.html and in register.xlsx', async () => {
    const lines = report.penetrations.flatMap(({ treatment }) => treatment.chosen?.scope ?? []);
    expect(lines.length).toBeGreaterThan(500);
    const markup = evidenceTables(report);
    expect(markup.match(/<tr>/g)!.length - markup.match(/<thead>/g)!.length).toBe(lines.length);
    const sheet = (await readXlsx(await writeRegister(report))).sheets.find(({ name }) => name === 'Evidence')!;
    expect(sheet.rows[1]!.map((cell) => cell?.value).slice(2)).toEqual([...SCOPE_HEADINGS]);
    expect(sheet.rows.length - 2).toBe(lines.length);
  });
});
