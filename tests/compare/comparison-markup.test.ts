/** What changed, as a part of report.html. */
import { expect, it } from 'vitest';
import { compareReports } from '../../src/compare/compare-reports.js';
import { comparisonMarkup } from '../../src/compare/comparison-markup.js';
import { writeComparison } from '../../src/compare/write-comparison.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, onPenetration } from '../report/factories.js';

const HOSTILE = 'W <script>alert(1)</script> & "12"';
const at = (n: number, width: number) =>
  aPenetration(n, {
    duct: aDuct({ globalId: `duct-${n}`, width }),
    barrier: aBarrier({ name: HOSTILE }),
    position: [9000 * n, 0, 2000],
  });
const before = aReport({ penetrations: [at(1, 600), at(2, 600)] });
const after = aReport({
  penetrations: [at(1, 500), at(3, 400)],
  findings: [aFinding('gap', { subject: onPenetration(1), message: `Something in ${HOSTILE} failed.` })],
});

it('says what the text says, under the same headings', () => {
  const comparison = compareReports(before, after);
  const [markup, text] = [comparisonMarkup(comparison), writeComparison(comparison)];
  for (const heading of [
    'New findings (1)',
    'New penetrations (1)',
    'Absent penetrations (1)',
    'Changed penetrations (1)',
  ]) {
    expect(text).toContain(heading);
    expect(markup).toContain(`<h3>${heading}</h3>`);
  }
  expect(markup).toContain('duct width 600 to 500 mm');
  expect(markup).not.toContain('<script');
  expect(markup).toContain('&lt;script&gt;');
});

it('of more than a page can bear names how many more there are', () => {
  const many = Array.from({ length: 70 }, (_, i) => aPenetration(i + 1));
  const markup = comparisonMarkup(compareReports(aReport({ penetrations: [] }), aReport({ penetrations: many })));
  expect(markup).toContain('New penetrations (70)');
  expect(markup).toContain('and 10 more');
});
