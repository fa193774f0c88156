/** Two reports compared: the demo after edits whose effect is worked out by hand, and small reports made for one question. */
import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { compareReports } from '../../src/compare/compare-reports.js';
import { comparisonSchema } from '../../src/compare/schema.js';
import { writeComparison } from '../../src/compare/write-comparison.js';
import type { Report } from '../../src/report/schema.js';
import { deleted, moved, resized, together } from '../reexport.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, onBarrier, onPenetration } from '../report/factories.js';
import { edited, reportOf } from './revisions.js';

const { files } = demoBuilding();
/** A wall 150 mm along its duct; a duct from 600 × 300 to 300 × 250 about its axis; a duct gone. */
const EDITS = {
  'architecture.ifc': moved('Kitchen wall west', [-150, 0, 0]),
  'services.ifc': together(resized('SA-G-2', 300, 250), deleted('KX-G-1')),
};
const before = await reportOf(files);

it.each([
  ['GlobalIds kept', undefined, false],
  ['new GlobalIds', 'again', false],
  ['new GlobalIds, keys carried over', 'again', true],
] as const)('the demo with a wall moved, a duct resized, a duct deleted: %s', async (_, seed, carry) => {
  const after = await reportOf(edited(files, EDITS, seed), carry ? { previous: before } : {});
  const { penetrations, findings, summary } = compareReports(before, after);
  const all = before.penetrations.length;
  expect(summary.penetrations).toEqual({ new: 0, absent: 1, changed: 1, moved: 1, unchanged: all - 3 });
  expect(summary.inferred).toBe(seed === undefined ? 0 : all - 1);
  const [absent, changed, shifted] = penetrations;
  expect([absent!.status, changed!.status, shifted!.status]).toEqual(['absent', 'changed', 'moved']);
  expect(absent!.place).toContain('Kitchen wall east');
  expect(shifted).toMatchObject({ moved: 150, changes: [], inferred: seed !== undefined });
  // The opening was 30 mm wider on all sides, on the right 140: each side gains half of what the duct lost.
  expect(changed!.tag).toBe('GJSD-J');
  expect(changed!.tagNow === null).toBe(seed === undefined || carry);
  expect(Object.fromEntries(changed!.changes.map((c) => [c.field, [c.before, c.after]]))).toEqual({
    ...{ 'duct.width': [600, 300], 'duct.height': [300, 250] },
    ...{ 'gaps.top': [30, 55], 'gaps.bottom': [30, 55], 'gaps.left': [30, 180], 'gaps.right': [140, 290] },
    ...{ 'gaps.min': [30, 55], 'gaps.max': [140, 290] },
  });
  const told = (status: string) => findings.filter((f) => f.status === status).map((f) => [f.check, f.after?.measured]);
  expect(told('worse')).toEqual([['gap-within-range', 290]]);
  expect(told('new').sort()).toEqual([
    ['gap-within-range', 180],
    ['gap-within-range', 55],
    ['gap-within-range', 55],
    // Without its first duct the riser is a run of its own, and nothing shows what it serves.
    ['one-compartment-served', null],
    ['protection-continuous', null],
    // The kitchen's south wall starts at 12,000; the east face of the wall that was moved is at 11,914 now.
    ['rated-walls-meet', 86],
  ]);
  expect(told('absent')).toEqual([['damper-or-protection', undefined]]);
  expect(summary.findings).toMatchObject({ better: 0, changed: 0, nowPasses: 0, noLongerListed: 0 });
  expect(summary.findings.unchanged).toBe(before.findings.length - 2);
});

it('finds nothing between a report and itself, and what passes is no news where only one report lists it', async () => {
  const all = await reportOf(files, { allFindings: true });
  for (const [a, b] of [
    [before, before],
    [before, all],
    [all, before],
    [all, all],
  ] as const) {
    const { summary } = compareReports(a, b);
    const shown = a === b ? a.findings.length : before.findings.length;
    expect(summary.findings).toMatchObject({ new: 0, worse: 0, changed: 0, better: 0, absent: 0, noLongerListed: 0 });
    expect(summary.findings.nowPasses).toBe(0);
    expect(summary.findings.unchanged).toBeGreaterThanOrEqual(shown);
  }
});

const failed = (n = 1) => aFinding('treatment', { key: `f-${n}`, subject: onPenetration(n), measured: 'none' });
const statuses = (a: Report, b: Report) =>
  compareReports(a, b).findings.map(({ status, possible }) => [status, possible] as const);
const was = aReport({ findings: [failed()] });

it('says "now passes" only where nothing else is possible', () => {
  const result = (outcome: 'passed' | 'inapplicable', n = 1) =>
    aFinding('treatment', { key: `f-${n}`, outcome, subject: onPenetration(n) });
  expect(statuses(was, aReport({ unlisted: [result('passed')] }))).toEqual([['nowPasses', []]]);
  expect(statuses(was, aReport({ findings: [result('passed')] }))).toEqual([['nowPasses', []]]);
  expect(statuses(was, aReport({ unlisted: [result('inapplicable')] }))).toEqual([
    ['noLongerListed', ['inapplicable']],
  ]);
  const would = aFinding('treatment', { outcome: 'cantTell', wouldBe: 'passed', subject: onPenetration(1) });
  expect(statuses(was, aReport({ unlisted: [would] }))).toEqual([['noLongerListed', ['cantTell']]]);
  // Another check of this penetration passed and this check did elsewhere: which of the two this is, nobody can say.
  const two = [aPenetration(1), aPenetration(2)];
  const mixed = aReport({
    penetrations: two,
    unlisted: [
      ...[result('inapplicable'), aFinding('gap', { outcome: 'passed', subject: onPenetration(1) })],
      result('passed', 2),
    ],
  });
  expect(statuses(was, mixed)).toEqual([['noLongerListed', ['passed', 'inapplicable']]]);
  // The check is no longer made, so nothing is said.
  expect(statuses(was, aReport())).toEqual([['noLongerListed', []]]);
});

it('does not call a side passed that has no gap any more', () => {
  const gap = aFinding('gap', { key: 'g', subject: onPenetration(1), side: 'right', measured: 140 });
  const passed = { ...gap, outcome: 'passed' as const };
  const noOpening = { ...aPenetration(1), opening: null };
  expect(statuses(aReport({ findings: [gap] }), aReport({ unlisted: [passed] }))).toEqual([['nowPasses', []]]);
  expect(statuses(aReport({ findings: [gap] }), aReport({ penetrations: [noOpening], unlisted: [passed] }))).toEqual([
    ['noLongerListed', ['passed']],
  ]);
});

it.each([
  ['failed by less', { margin: -5 }, 'better'],
  ['failed by more', { margin: -30 }, 'worse'],
  ['failed by the same', { margin: -20 }, 'unchanged'],
  ['can no longer be told', { outcome: 'cantTell', missing: ['penetration.gap'] }, 'changed'],
  ['does not apply', { outcome: 'inapplicable' }, 'changed'],
] as const)('a finding that %s', (_, change, status) => {
  const gap = aFinding('gap', { subject: onPenetration(1), side: 'bottom', measured: 70, margin: -20 });
  const now = { ...gap, ...change, key: 'another' } as typeof gap;
  expect(statuses(aReport({ findings: [gap] }), aReport({ findings: [now] }))).toEqual([[status, []]]);
});

it('tells a wall that is still there from one that is gone', () => {
  const unrated = aFinding('rating', {
    outcome: 'cantTell',
    subject: onBarrier('wall-1'),
    missing: ['barrier.rating'],
  });
  const old = aReport({ findings: [unrated] });
  const passed = { ...unrated, outcome: 'passed' as const, missing: [] };
  expect(statuses(old, aReport({ unlisted: [passed] }))).toEqual([['nowPasses', []]]);
  const elsewhere = aPenetration(1, {
    ...{ key: 'other', position: [9000, 9000, 9000] },
    ...{ barrier: aBarrier({ globalId: 'wall-9', name: 'W-9' }), duct: aDuct({ globalId: 'duct-9' }) },
  });
  expect(statuses(old, aReport({ penetrations: [elsewhere], unlisted: [passed] }))).toEqual([['absent', []]]);
});

it('writes what a meeting reads: within 96 characters a line, no text of a model that could lie', () => {
  const hostile = aReport({
    revision: 'B\u001b[31m',
    findings: [{ ...failed(), message: 'Line one\nline \u202etwo' }],
  });
  const text = writeComparison(compareReports(aReport(), hostile));
  expect(text).toContain('to revision B [31m of 2026-01-02.');
  expect(text).toContain('New findings (1)');
  expect(text).toContain('Line one line two');
  for (const character of ['\u001b', '\u202e']) expect(text).not.toContain(character);
  for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(96);
  expect(() => comparisonSchema.parse(JSON.parse(JSON.stringify(compareReports(was, hostile))))).not.toThrow();
});

it('says what else differs', () => {
  const { notes } = compareReports(was, aReport({ findings: [failed()], toolVersion: '0.2.0' }));
  expect(notes).toEqual(['Made with ratedrun 0.1.0 before and ratedrun 0.2.0 now.']);
});
