/** Judging once for the list and for the counts gives what judging twice gave. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { type BareFinding, judge, judgeWithResults, loadRules } from '../../src/rules/index.js';

const FILES = ['rules/common-practice.yaml', 'rules/published-values.yaml'];
const rules = loadRules(FILES.map((file) => ({ file, text: readFileSync(file, 'utf8') })));

it.each([false, true])('with allFindings %s', async (allFindings) => {
  const encoder = new TextEncoder();
  const federation = await readFederation(
    demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) })),
  );
  const crossings = findPenetrations(federation);
  const options = { models: federation.models, allFindings };
  const { judgement, results, all } = judgeWithResults(crossings, rules, options);
  expect(judgement).toEqual(judge(crossings, rules, options));
  expect(all()).toEqual(judge(crossings, rules, { ...options, allFindings: true }).findings);
  const bare = ({ key, check, outcome, wouldBe, subject, side, at, measured, limit, margin, tolerance }: BareFinding) =>
    JSON.stringify({ key, check, outcome, wouldBe, subject, side, at, measured, limit, margin, tolerance });
  expect(results.map(bare).sort()).toEqual(all().map(bare).sort());
  expect(results.length > judgement.findings.length).toBe(!allFindings);
});
