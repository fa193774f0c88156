/** Dampers of the demo building that are right come out passed under its brief, and only by the demonstration damper's proof. */

import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { buildReport } from '../../src/report/build-report.js';
import { constructionRows, judgeWithResults, largestSeparation } from '../../src/rules/index.js';
import { demoBrief as brief, rules } from '../shipped-rules.js';

const demo = demoBuilding();
const federation = await readFederation(
  demo.files.map((file) => ({ name: file.name, bytes: new TextEncoder().encode(file.text) })),
  { facts: brief.facts, constructions: constructionRows(rules) },
);
const found = () => findPenetrations(federation, { facts: brief.facts, separation: largestSeparation(rules) });
const crossings = found();

function outcomes(under: typeof brief) {
  const { models } = federation;
  const judged = judgeWithResults(crossings, rules, { brief: under, models, allFindings: true });
  const report = buildReport({ models, crossings, ...judged, createdAt: '2026-01-01T00:00:00Z', toolVersion: '0' });
  return new Map(report.penetrations.map((p) => [p.duct.name, p.outcome]));
}

/** A damper that opens for smoke is no fire damper: its duct is wrapped. */
const right = demo.crossings.filter(
  ({ kind, expected }) => kind === 'right' && expected.dampers && expected.duct.startsWith('FD'),
);

it('passes every right damper, under a brief that says demonstration', () => {
  const passed = outcomes(brief);
  expect(right.length).toBeGreaterThan(15);
  expect(
    right.filter(({ expected }) => passed.get(expected.duct) !== 'passed').map((one) => one.expected.duct),
  ).toEqual([]);
});

it.each([
  ['no demonstration', { ...brief, demonstration: false }],
  ['no tested damper', { ...brief, choices: { ...brief.choices, testedDampers: [] } }],
])('passes none of them: %s', (_, under) => {
  const passed = outcomes(under);
  expect(right.filter(({ expected }) => passed.get(expected.duct) === 'passed')).toEqual([]);
});

it('measures where dampers sit, what stands beside them and how they are reached', () => {
  const { penetrations } = found();
  const placed = (name: string) =>
    penetrations.flatMap(({ dampers }) => dampers).find((damper) => damper.name === name);
  const shown = (name: string) => {
    const { offset, standsOut, construction, size, access, orientation } = placed(name)!;
    return [offset, standsOut, construction?.kind, construction?.distance, size, access.distance, orientation];
  };
  const branch = { width: 400, height: 250, diameter: null, from: 'duct' };
  // Casings of 228 mm in a wall of 128 mm; the soffit at 3,400, the top of the casing at 2,125.
  expect(shown('FD-B-1')).toEqual([0, [50, 50], 'slab', 1275, branch, 50, 'both']);
  expect(shown('FD-B-3')).toEqual([100, [50, 250], 'slab', 1275, branch, 50, 'both']);
  expect(shown('FD-B-6')).toEqual([0, [50, 50], 'corner', 50, branch, 50, 'both']);
  expect(shown('FD-B-8').at(-2)).toBe(2000);
  const round = { width: null, height: null, diameter: 315, from: 'duct' };
  expect(shown('FD-B-2').slice(0, 5)).toEqual([0, [50, 50], 'slab', 1242.5, round]);
  // The risers pass a floor on which nothing stands within 2 m.
  expect(shown('FD-B-13')).toEqual([0, [50, 50], undefined, undefined, branch, 50, 'wall']);
  const outside = penetrations.filter((p) => p.damperOutside !== null);
  expect(outside.map((p) => [p.duct.name, p.damperOutside!.name, p.damperOutside!.distance])).toEqual([
    ['SA-F-5a', 'FD-F-5', 354],
  ]);
});
