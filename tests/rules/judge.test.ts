import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../src/model.js';
import { type JudgeOptions, judge } from '../../src/rules/index.js';
import { crossings, damper, EVIDENCE, gaps, penetration, rulesOf, treated } from './factories.js';
import { shippedRules } from './rule-cases.js';

const ONE = crossings({ penetrations: [penetration({ skew: 4 })] });
const OBLIQUE = crossings({ penetrations: [penetration({ skew: 25 })] });

describe('passed needs proof', () => {
  const outcome = (about: string, status: string, found: typeof ONE, options: JudgeOptions = {}) => {
    const evidence = status === 'tested' ? { evidence: EVIDENCE } : {};
    const rules = rulesOf({ about, basis: { source: 'a test', status } }, { status, ...evidence });
    const [finding] = judge(found, rules, { allFindings: true, ...options }).findings;
    return [finding?.outcome, finding?.wouldBe];
  };
  const demonstration = { brief: { demonstration: true } };

  it.each(['tested', 'unverified', 'demonstration'])('about fire, missed, %s: failed', (status) => {
    expect(outcome('fire', status, OBLIQUE)).toEqual(['failed', null]);
    expect(outcome('fire', status, OBLIQUE, demonstration)).toEqual(['failed', null]);
  });

  it.each([
    ['tested', {}, ['passed', null]],
    ['tested', demonstration, ['passed', null]],
    ['unverified', {}, ['cantTell', 'passed']],
    ['unverified', demonstration, ['cantTell', 'passed']],
    ['demonstration', {}, ['cantTell', 'passed']],
    ['demonstration', { brief: { demonstration: false } }, ['cantTell', 'passed']],
    ['demonstration', demonstration, ['passed', null]],
  ])('about fire, met, %s, options %o', (status, options, expected) => {
    expect(outcome('fire', status, ONE, options)).toEqual(expected);
  });

  it('an unverified basis proves nothing in a tested document', () => {
    const rules = rulesOf({}, { status: 'tested', evidence: EVIDENCE });
    expect(judge(ONE, rules).checks[0]?.outcomes).toMatchObject({ passed: 0, cantTell: 1, wouldPass: 1 });
  });

  it.each(['tested', 'unverified', 'demonstration'])('about the model, %s: passes and fails by itself', (status) => {
    expect(outcome('model', status, ONE)).toEqual(['passed', null]);
    expect(outcome('model', status, OBLIQUE)).toEqual(['failed', null]);
  });
});

describe('outcomes', () => {
  it('are those of W3C EARL 1.0 Schema, 2.7 OutcomeValue: earl:passed and so on', () => {
    const earl = ['passed', 'failed', 'cantTell', 'inapplicable', 'untested'];
    expect([...OUTCOMES].sort()).toEqual(earl.sort());
    for (const { outcomes } of judge(ONE, shippedRules).checks) {
      expect(Object.keys(outcomes).sort()).toEqual([...earl, 'wouldPass'].sort());
    }
  });

  it('that passed, do not apply or would pass are only counted, unless all are asked for', () => {
    const found = crossings({
      penetrations: [
        penetration({
          ...treated('damper'),
          dampers: [damper()],
          gaps: gaps({ bottom: 70, max: 70 }),
        }),
      ],
    });
    const few = judge(found, shippedRules);
    expect(few.findings.map(({ check, outcome }) => [check, outcome])).toEqual([
      ['gap-within-range', 'failed'],
      ['tested-damper-chosen', 'cantTell'],
      // What the damper must be rated for hangs on the code.
      ['code-named', 'cantTell'],
    ]);
    const all = judge(found, shippedRules, { allFindings: true });
    expect(all.checks).toEqual(few.checks);
    const counted = all.checks.reduce((sum, { outcomes: { wouldPass, ...rest } }) => {
      expect(wouldPass).toBeLessThanOrEqual(rest.cantTell);
      return sum + Object.values(rest).reduce((a, b) => a + b);
    }, 0);
    expect(all.findings).toHaveLength(counted);
    // Damper, its integrity and its insulation, its place and its distance to construction, three gaps, skew, a rigid duct,
    // no fitting, one of steel.
    expect(all.findings.filter(({ wouldBe }) => wouldBe === 'passed')).toHaveLength(12);
  });

  it('what can not be worked out is never passed and names no fact', () => {
    const rules = rulesOf({ about: 'model', measure: 'penetration.skew / 0', message: { failed: 'f', cantTell: 'c' } });
    const [finding] = judge(ONE, rules).findings;
    expect(finding).toMatchObject({ outcome: 'cantTell', missing: [], wouldBe: null });
    expect(finding?.message).toContain('could not be worked out');
  });

  it('limits that contradict once they are worked out are neither met nor missed', () => {
    const rules = rulesOf({
      about: 'model',
      atLeast: { cel: 'penetration.skew + 1' },
      atMost: { cel: 'penetration.skew' },
    });
    expect(judge(ONE, rules).findings[0]).toMatchObject({ outcome: 'cantTell', limit: { atLeast: 5, atMost: 4 } });
  });

  it('a limit that depends on a missing fact can not be told', () => {
    const rules = rulesOf({ about: 'model', atMost: { cel: 'duct.diameter / 10.0' } });
    expect(judge(ONE, rules).findings[0]).toMatchObject({
      outcome: 'cantTell',
      missing: ['duct.diameter'],
      measured: 4,
    });
  });
});

describe('margins', () => {
  const margin = (jointDistance: number, limit: { [key: string]: number }) => {
    const rules = rulesOf({ measure: 'penetration.jointDistance', unit: 'mm', atMost: undefined, ...limit });
    const found = crossings({ penetrations: [penetration({ jointDistance })] });
    return judge(found, rules, { allFindings: true }).findings[0]?.margin;
  };

  it.each([
    [70, { atLeast: 10, atMost: 50 }, -20],
    [5, { atLeast: 10, atMost: 50 }, -5],
    [30, { atLeast: 10, atMost: 50 }, 20],
    [12, { atLeast: 10, atMost: 50 }, 2],
    [50, { atMost: 50 }, 0],
    // 0.3 - 0.1 is 0.19999999999999998
    [0.1, { atMost: 0.3 }, 0.2],
  ])('%d within %o is %d', (measured, limit, expected) => {
    expect(margin(measured, limit)).toBe(expected);
  });
});
