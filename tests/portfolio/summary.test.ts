import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import type { JobEnd, JobResult, PortfolioJob } from '../../src/portfolio/job.js';
import { portfolioOf } from '../../src/portfolio/summary.js';
import { totalsWords, trendWords, writePortfolioPage } from '../../src/portfolio/write-page.js';

const job = (name: string, project: string, revision: string | null = null): PortfolioJob => ({
  ...{ name, project, revision, models: [], projectBrief: null, rules: null, previous: null },
  ...{ write: 'json', folder: `/out/${name}` },
});
const result = (name: string, failed: number, cantTell: number, penetrations: number): JobResult => ({
  ...{ name, fingerprint: name, penetrations, createdAt: '2026-01-02T03:04:05Z', demonstration: false },
  outcomes: { passed: 5, failed, cantTell, inapplicable: 0, untested: 0 },
  ...{ seconds: 1.25, peak: 200 },
});
const done = (of: PortfolioJob, is: JobResult): JobEnd => ({ job: of, attempts: 1, result: is, wasDone: false });

const ENDS: readonly JobEnd[] = [
  done(job('q-a', 'Quay', 'A'), result('q-a', 7, 3, 20)),
  { job: job('shed', 'Shed <b>&'), attempts: 3, fault: 'its thread ended <script>' },
  { job: job('q-b', 'Quay', 'B'), attempts: 2, fault: 'gone' },
  done(job('q-c', 'Quay', 'C'), result('q-c', 4, 4, 20)),
];
const portfolio = portfolioOf({
  ...{ id: 'harbour', tool: 'ratedrun 0', createdAt: '2026-01-02T03:04:05Z', cautions: ['Not a certification.'] },
  ends: ENDS,
});

describe('the summary', () => {
  it('tells revisions of a project in their order, against the last one that was done', () => {
    const [quay, shed] = portfolio.projects;
    expect(quay!.rows.map(({ revision, state, trend }) => [revision, state, trend])).toEqual([
      ['A', 'done', null],
      ['B', 'dead', null],
      ['C', 'done', { failed: -3, cantTell: 1, penetrations: 0 }],
    ]);
    expect(shed!.rows.map(({ fault, attempts }) => [fault, attempts])).toEqual([['its thread ended <script>', 3]]);
  });

  it('counts the latest revision of each project, and every job and try', () => {
    expect(portfolio.totals).toEqual({ jobs: 4, done: 2, dead: 2, attempts: 7, failed: 4, cantTell: 4 });
    expect(totalsWords(portfolio)).toBe(
      "4 jobs: 2 done, 2 dead. In the latest revisions 4 results failed and 4 can't be told.",
    );
  });

  it('words a trend', () => {
    expect(trendWords({ failed: -3, cantTell: 1, penetrations: -1 })).toBe(
      "3 fewer failed, 1 more can't be told, 1 fewer penetration",
    );
    expect(trendWords({ failed: 0, cantTell: 0, penetrations: 0 })).toBe('no count changed');
  });
});

it('is a page whose names can not be markup', () => {
  const page = new TextDecoder().decode(writePortfolioPage(portfolio, []));
  expect(page).not.toMatch(/<script|<b>/);
  expect(page).toContain('Shed &lt;b&gt;&amp;');
  expect(parse(page).childNodes.length).toBeGreaterThan(1);
  for (const words of ['3 fewer failed', 'Dead, 3 tries', 'Not a certification.']) expect(page).toContain(words);
});
