import { beforeAll, expect, it } from 'vitest';
import { judge } from '../../src/rules/index.js';
import { demoBrief, demoBriefText, rules, shippedTexts } from '../shipped-rules.js';
import { type Demo, demoCrossings } from './demo-crossings.js';
import { fuzzDocuments } from './documents.js';
import { falsePasses, firePasses } from './false-pass.js';

let demo: Demo;
beforeAll(async () => {
  demo = await demoCrossings(rules, demoBrief);
}, 300_000);

it('rule documents and briefs changed at random neither crash nor hang, and prove nothing that is not written', async () => {
  const fuzzed = await fuzzDocuments({ shipped: shippedTexts, brief: demoBriefText, runs: 40, seed: 20261126, demo });
  expect(fuzzed).toMatchObject({ runs: 40, crashes: [], hangs: [], falsePasses: [] });
  // Otherwise nothing was tried.
  expect(fuzzed.refused).toBeGreaterThan(15);
  expect(fuzzed.judged).toBeGreaterThan(5);
  expect(fuzzed.firePasses).toBeGreaterThan(1000);
}, 300_000);

it('what tells false passes finds them', () => {
  const { crossings, models } = demo;
  const { findings } = judge(crossings, rules, { brief: demoBrief, models, allFindings: true });
  const documents = shippedTexts.map(({ text }) => text);
  const brief = demoBriefText.text;
  const passed = firePasses(findings, { documents, brief });
  expect(new Set(passed.map(({ check }) => check)).size).toBeGreaterThan(40);
  expect(falsePasses(findings, { documents, brief })).toEqual([]);
  const wrong = (written: Parameters<typeof falsePasses>[1], given = findings) => falsePasses(given, written).length;
  expect(wrong({ documents, brief: undefined })).toBe(passed.length);
  const unverified = documents.map((text) => text.replace('status: demonstration', 'status: unverified'));
  expect(wrong({ documents: unverified, brief })).toBe(passed.length);
  const untested = documents.map((text) => text.replace('status: demonstration', 'status: tested'));
  expect(wrong({ documents: untested, brief })).toBe(passed.length);
  const further = findings.map((one) => ({ ...one, limit: one.limit && { ...one.limit, atMost: 987_654 } }));
  expect(wrong({ documents, brief }, further)).toBeGreaterThan(0);
  const own = documents.map((text) => text.replaceAll('status: system', 'status: unverified'));
  expect(wrong({ documents: own, brief })).toBe(passed.length);
}, 300_000);
