/**
 * What was proven near each place is true of the whole building: all changes are made at once, and all is found and judged
 * again. In the tower supply and return are one run each through all storeys, so that remedies see a part of a run alone.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { tower } from '../../fixtures/tower.js';
import { findInBuilding } from '../../src/find/find-penetrations.js';
import type { Change, Finding } from '../../src/model.js';
import { packageRoot } from '../../src/platform/package-root.js';
import { apply } from '../../src/remedy/apply.js';
import { singlesOf } from '../../src/remedy/singles.js';
import { judgeOutcomes, loadBrief } from '../../src/rules/index.js';
import { demoBrief, rules } from '../shipped-rules.js';
import { remedied } from './remedied.js';

const TOWER_BRIEF = join('fixtures', 'tower', 'brief.yaml');
const towerBrief = () =>
  loadBrief({ file: TOWER_BRIEF, text: readFileSync(join(packageRoot, TOWER_BRIEF), 'utf8') }, rules);

describe('all remedies made at once', () => {
  it.each([
    ['the demo building', () => remedied(demoBuilding().files, demoBrief), 8],
    ['a tower', () => remedied([{ name: 'tower.ifc', text: tower({ storeys: 4 }) }], towerBrief()), 12],
  ])('hold in the whole of %s', async (_, made, least) => {
    const { federation, crossings, find, judge, results } = await made();
    const named = new Map(crossings.penetrations.map((p) => [p.id, p]));
    const mended = results.filter(({ change }) => change && !change.kind.startsWith('choose'));
    const changes = new Map(mended.map(({ change }) => [JSON.stringify(change), change as Change]));
    expect(changes.size).toBeGreaterThan(least);
    const changed = apply(federation, [...changes.values()].flatMap(singlesOf), named);
    const after = judgeOutcomes(findInBuilding(changed, find).crossings, rules, judge);
    const outcomes = new Map(after.map((one) => [one.key, one]));
    const isBad = ({ outcome, wouldBe }: Pick<Finding, 'outcome' | 'wouldBe'>) =>
      outcome === 'failed' || (outcome === 'cantTell' && wouldBe === null);
    for (const { key, message } of mended)
      expect(outcomes.get(key) && isBad(outcomes.get(key)!), message).not.toBe(true);
    const bad = new Set(results.filter(isBad).map(({ key }) => key));
    const fresh = after.filter((one) => isBad(one) && !bad.has(one.key));
    expect(fresh.map(({ check, subject, measured }) => `${check} ${subject.id} ${measured}`)).toEqual([]);
  });
});
