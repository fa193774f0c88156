/** Places for which no remedy was sought are counted wherever remedies are read. */
import { describe, expect, it } from 'vitest';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeHtml } from '../../src/report/html.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { writeRegister } from '../../src/report/register.js';
import type { Report } from '../../src/report/schema.js';
import { writeSummary } from '../../src/report/summary.js';
import { aFinding, aReport, onPenetration } from './factories.js';
import { readXlsx } from './read-xlsx.js';

const reportWith = (unsolvedPlaces?: number): Report =>
  aReport({
    findings: [aFinding('gap', { subject: onPenetration(1) })],
    ...(unsolvedPlaces !== undefined && { unsolvedPlaces }),
  });

async function outputsOf(report: Report): Promise<string[]> {
  const readMe = readXlsx(await writeRegister(report)).sheets.find(({ name }) => name === 'Read me')!;
  const fonts = await loadFonts();
  return [
    writeSummary(report, { files: [], width: 400 }),
    new TextDecoder().decode(writeHtml(report, { fonts, openings: openingRequests(report), revision: null })),
    readMe.rows.flatMap((row) => row.map((cell) => String(cell?.value ?? ''))).join('\n'),
  ];
}

describe('places that were left unsolved', () => {
  it.each([
    [1, 'No change was worked out for 1 more place where one may mend what failed: only the worst are solved.'],
    [12, 'No change was worked out for 12 more places where one may mend what failed: only the worst are solved.'],
  ])('are counted in the report, in the summary, in report.html and in the register: %i', async (count, words) => {
    const report = reportWith(count);
    expect(report.summary.unsolvedPlaces).toBe(count);
    for (const output of await outputsOf(report)) expect(output).toContain(words);
  });

  it.each([undefined, 0])('are not spoken of where there are none: %s', async (count) => {
    const report = reportWith(count);
    expect(report.summary.unsolvedPlaces).toBe(count ?? null);
    for (const output of await outputsOf(report)) expect(output).not.toContain('No change was worked out');
  });
});
