import { beforeAll, describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { constructionRows, judgeChecks, judgeWithResults, KeptCases, loadRules } from '../../src/rules/index.js';
import { casesOf } from '../../src/rules/subjects.js';
import { demoBrief, rules, shippedTexts } from '../shipped-rules.js';

let federation: Federation;
let crossings: Crossings;

beforeAll(async () => {
  const encoder = new TextEncoder();
  const inputs = demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const { facts } = demoBrief;
  federation = await readFederation(inputs, { facts, constructions: constructionRows(rules) });
  crossings = findPenetrations(federation, { facts });
});

describe('judging again with what was kept', () => {
  /** One limit of one check set is another. */
  const changed = shippedTexts.map((document) =>
    document.file === 'rules/common-practice.yaml'
      ? { ...document, text: document.text.replaceAll('atMost: 50', 'atMost: 35') }
      : document,
  );

  it('comes to what judging anew comes to, under other limits, systems, choices and crossings', {
    timeout: 240_000,
  }, () => {
    const kept = new KeptCases();
    const { models } = federation;
    const other = loadRules(changed);
    const withoutSystems = { ...rules, systems: [] };
    const fewer = { ...crossings, penetrations: crossings.penetrations.slice(1) };
    const brief = { ...demoBrief, choices: { ...demoBrief.choices, siteTolerance: 25 } };
    const outcomes = new Set<string>();
    for (const [found, set, under] of [
      [crossings, rules, demoBrief],
      [crossings, other, demoBrief],
      [crossings, withoutSystems, demoBrief],
      [crossings, rules, brief],
      [crossings, rules, undefined],
      [fewer, rules, demoBrief],
      [crossings, rules, demoBrief],
    ] as const) {
      const options = { brief: under, models };
      const again = judgeChecks(found, set, { ...options, kept });
      expect(again).toEqual(judgeWithResults(found, set, options).judgement.checks);
      outcomes.add(JSON.stringify(again));
    }
    // All but the last, which is the first again, differ, so that keeping too much would show.
    expect(outcomes.size).toBe(6);
  });

  it('makes its cases once for the same facts, and anew for others', () => {
    const kept = new KeptCases();
    const decided = { systems: rules.systems, dampers: rules.dampers, choices: demoBrief.choices };
    const first = kept.of(crossings, federation.models, decided);
    expect(kept.of(crossings, federation.models, { ...decided })).toBe(first);
    expect(kept.of(crossings, federation.models, { ...decided, dampers: [] })).not.toBe(first);
    expect(kept.of(crossings, [], decided)).toEqual(casesOf(crossings, [], decided));
  });

  it('asks only checks that say something else than before, of the same cases and under the same proof', () => {
    const kept = new KeptCases();
    const { subjects } = casesOf(crossings, federation.models);
    const asked = (of: typeof subjects, demonstration: boolean, set: typeof rules) => {
      let ids: string[] = [];
      const results = kept.results(of, { demonstration }, set.checks, (checks) => {
        ids = checks.map(({ definition }) => definition.id);
        return new Map(checks.map((check) => [check, []]));
      });
      expect(results.size).toBe(set.checks.filter(({ each }) => each !== 'model').length);
      return ids;
    };
    const all = asked(subjects, false, rules);
    expect(asked(subjects, false, rules)).toEqual([]);
    expect(asked(subjects, false, loadRules(changed))).toEqual(['gap-within-range']);
    expect(asked(subjects, true, rules)).toEqual(all);
    expect(asked({ ...subjects }, true, rules)).toEqual(all);
  });

  it('compiles the document that changed, and no other', () => {
    const [a, b] = [loadRules(shippedTexts), loadRules(changed)];
    const filesOf = (same: boolean) =>
      new Set(b.checks.filter((check) => a.checks.includes(check) === same).map(({ file }) => file));
    const touched = changed.filter((document, i) => document !== shippedTexts[i]).map(({ file }) => file);
    expect(touched.length).toBeGreaterThan(0);
    expect([...filesOf(false)].filter((file) => !touched.includes(file))).toEqual([]);
    expect(filesOf(true).size).toBeGreaterThan(1);
    expect(loadRules(shippedTexts).systems).toEqual(a.systems);
    // Texts that nobody has loaded yet, once and again.
    const fresh = shippedTexts.map((document) => ({ ...document }));
    const [once, again] = [loadRules(fresh), loadRules(fresh)];
    expect(once.checks).toHaveLength(a.checks.length);
    expect(once.checks.filter((check) => !again.checks.includes(check))).toEqual([]);
  });
});
