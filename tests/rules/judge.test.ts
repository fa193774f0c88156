import { describe, expect, it } from 'vitest';
import { type Finding, OUTCOMES } from '../../src/model.js';
import { type JudgeOptions, judge, loadRules } from '../../src/rules/index.js';
import {
  barrier,
  checkFields,
  crossings,
  document,
  EVIDENCE,
  facingEnds,
  gaps,
  modelInfo,
  NO_GAPS,
  penetration,
  rating,
  rulesOf,
  treated,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
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
      penetrations: [penetration({ ...treated('damper'), gaps: gaps({ bottom: 70, max: 70 }) })],
    });
    const few = judge(found, shippedRules);
    expect(few.findings.map(({ check, outcome }) => [check, outcome])).toEqual([['gap-within-range', 'failed']]);
    const all = judge(found, shippedRules, { allFindings: true });
    expect(all.checks).toEqual(few.checks);
    const counted = all.checks.reduce((sum, { outcomes: { wouldPass, ...rest } }) => {
      expect(wouldPass).toBeLessThanOrEqual(rest.cantTell);
      return sum + Object.values(rest).reduce((a, b) => a + b);
    }, 0);
    expect(all.findings).toHaveLength(counted);
    expect(all.findings.filter(({ wouldBe }) => wouldBe === 'passed')).toHaveLength(5);
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
  const margin = (skew: number, limit: { [key: string]: number }) => {
    const rules = rulesOf({ unit: 'mm', atMost: undefined, ...limit });
    return judge(crossings({ penetrations: [penetration({ skew })] }), rules, { allFindings: true }).findings[0]
      ?.margin;
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

describe('facts missing at the barrier', () => {
  const unrated = barrier({ rating: UNSTATED });
  const three = crossings({
    penetrations: [1, 2, 3].map((n) =>
      penetration({ id: `P-000${n}`, key: `key-${n}`, barrier: unrated, opening: null, gaps: NO_GAPS }),
    ),
  });
  const findings = (options: JudgeOptions = {}) => judge(three, shippedRules, options).findings;

  it('are shown once, with how many penetrations wait', () => {
    const atBarrier = findings().filter(({ missing }) => missing.includes('barrier.rating') && missing.length === 1);
    expect(atBarrier.map(({ check, subject }) => [check, subject.type])).toEqual([
      ['review-possible', 'model'],
      ['barrier-rating-known', 'barrier'],
    ]);
    expect(atBarrier[1]?.message).toContain('wait for it: 3 of 3');
    expect(findings()).toHaveLength(2);
  });

  it('are counted where they are wanted', () => {
    const { checks } = judge(three, shippedRules);
    expect(checks.find(({ id }) => id === 'opening-modelled')?.outcomes.cantTell).toBe(3);
    expect(checks.find(({ id }) => id === 'gap-within-range')?.outcomes).toMatchObject({
      cantTell: 0,
      inapplicable: 6,
    });
  });

  it('are all listed when all are asked for, and no fewer wait', () => {
    const all = findings({ allFindings: true });
    expect(all.filter(({ check }) => check === 'opening-modelled')).toHaveLength(3);
    expect(all.find(({ check }) => check === 'barrier-rating-known')?.message).toContain('wait for it: 3 of 3');
  });

  it('are listed where no finding of the barrier says so', () => {
    const duration = rating({ state: 'durationOnly', text: '2 HR', integrity: null, insulation: null, duration: 120 });
    const rules = loadRules([
      {
        file: 'integrity.yaml',
        text: document([
          checkFields(),
          checkFields({ id: 'integrity', measure: 'barrier.rating.integrity', atMost: undefined, atLeast: 60 }),
        ]),
      },
    ]);
    const found = crossings({ penetrations: [penetration({ barrier: barrier({ rating: duration }) })] });
    expect(judge(found, rules).findings).toMatchObject([{ check: 'integrity', missing: ['barrier.rating.integrity'] }]);
  });

  it('hide nothing of another barrier, and nothing that lacks more', () => {
    const both = crossings({
      penetrations: [
        penetration({ barrier: unrated }),
        penetration({ id: 'P-0002', key: 'key-2', barrier: barrier({ globalId: 'W2', name: 'Wall 2' }) }),
      ],
    });
    const listed = judge(both, shippedRules).findings.filter(({ subject }) => subject.type === 'penetration');
    expect(listed.map(({ check, subject }) => [check, subject.id])).toEqual([['damper-or-protection', 'P-0002']]);
    const ends = crossings({ penetrations: [penetration({ barrier: unrated, crossing: 'endsInside' })] });
    expect(judge(ends, shippedRules).findings.map(({ check }) => check)).toContain('crossing-complete');
  });
});

describe('order and names', () => {
  const W = (n: number, integrity: number) =>
    barrier({ globalId: `W${n}`, name: `Wall ${n}`, rating: rating({ integrity }) });
  const at = (n: number, changes: Parameters<typeof penetration>[0]) =>
    penetration({ id: `P-000${n}`, key: `key-${n}`, elements: [{ model: 'm1', globalId: `D${n}` }], ...changes });
  const found = crossings({
    penetrations: [
      at(1, { barrier: W(1, 60), skew: 40, neighbours: [{ penetration: 'P-0002', distance: 150 }] }),
      at(2, { barrier: W(1, 60), skew: 12, neighbours: [{ penetration: 'P-0001', distance: 150 }] }),
      at(3, { barrier: W(2, 120), opening: null }),
      at(4, { barrier: W(3, 120), gaps: gaps({ top: 60, bottom: 0, min: 0, max: 60 }) }),
      at(5, { barrier: barrier({ globalId: 'W4', name: 'Wall 4', rating: UNREADABLE }) }),
      at(6, { barrier: barrier({ globalId: 'W5', name: 'Wall 5', rating: UNSTATED }), crossing: 'partial' }),
    ],
    facingEnds: [facingEnds({ barrier: W(2, 120) }), facingEnds({ barrier: W(3, 120), system: 'RA' })],
  });

  it('by outcome, then rating, then relative margin', () => {
    const { findings } = judge(found, shippedRules);
    expect(findings.slice(0, 6).map(({ check, subject, side }) => [check, subject.id, side])).toEqual([
      ['gap-within-range', 'P-0004', 'bottom'], // -10 of 10
      ['gap-within-range', 'P-0004', 'top'], // -10 of 50
      ['opening-modelled', 'P-0003', null], // no margin
      ['skew-limited', 'P-0001', null], // -30 of 10
      ['separation', 'P-0001', null], // -50 of 200
      ['skew-limited', 'P-0002', null], // -2 of 10
    ]);
    expect(findings.slice(6).every(({ outcome }) => outcome === 'cantTell')).toBe(true);
    expect(findings.map(({ id }) => id)).toEqual(findings.map((_, i) => `F-${String(i + 1).padStart(4, '0')}`));
  });

  it('what can not be told of the whole review comes first among its kind', () => {
    const nothing = crossings({ penetrations: [penetration({ barrier: barrier({ rating: UNSTATED }) })] });
    expect(judge(nothing, shippedRules, { models: [modelInfo()] }).findings[0]?.subject.type).toBe('model');
  });

  it.each([1, 2, 3, 20260825])('does not depend on the order of what was found (seed %i)', (seed) => {
    const shuffle = shuffler(seed);
    const expected = judge(found, shippedRules, { allFindings: true });
    const mixed = {
      ...found,
      barriers: shuffle(found.barriers),
      facingEnds: shuffle(found.facingEnds),
      penetrations: shuffle(found.penetrations).map((one) => ({ ...one, neighbours: shuffle(one.neighbours) })),
    };
    expect(mixed.penetrations).not.toEqual(found.penetrations);
    expect(judge(mixed, shippedRules, { allFindings: true })).toEqual(expected);
  });

  it('keys do not hang on coordinates, ids, file names or measured values', () => {
    const keys = ({ findings }: { findings: readonly Finding[] }) => findings.map(({ key }) => key).sort();
    const moved = {
      ...found,
      penetrations: found.penetrations.map((one) => ({
        ...one,
        duct: { ...one.duct, model: 'm7' },
        position: [one.position[0] + 500, 7, 7] as const,
      })),
    };
    expect(keys(judge(moved, shippedRules, { allFindings: true }))).toEqual(
      keys(judge(found, shippedRules, { allFindings: true })),
    );
  });

  it('keys never repeat, even where GlobalIds do', () => {
    const twice = crossings({
      penetrations: [
        penetration({ barrier: barrier({ rating: UNSTATED }) }),
        penetration({ id: 'P-0002', key: 'key-2', barrier: barrier({ model: 'm3', rating: UNSTATED }) }),
        penetration({ id: 'P-0003', key: 'key-3', barrier: barrier({ name: 'Its twin', rating: UNREADABLE }) }),
      ],
    });
    const { findings } = judge(twice, shippedRules, { allFindings: true });
    expect(findings.filter(({ check }) => check === 'barrier-rating-known')).toHaveLength(3);
    expect(new Set(findings.map(({ key }) => key)).size).toBe(findings.length);
    for (const { key } of findings) expect(key).toMatch(/^[0-9a-f]{16}$/);
  });

  it('refuses a neighbour that does not exist', () => {
    const lost = crossings({ penetrations: [penetration({ neighbours: [{ penetration: 'P-0009', distance: 5 }] })] });
    expect(() => judge(lost, shippedRules)).toThrow('P-0009');
  });
});

/** Fisher-Yates over mulberry32: the same order in every run. */
function shuffler(seed: number): <T>(items: readonly T[]) => T[] {
  let state = seed;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return (items) => {
    const mixed = [...items];
    for (let i = mixed.length - 1; i > 0; i--) {
      const j = Math.floor(next() * (i + 1));
      [mixed[i], mixed[j]] = [mixed[j]!, mixed[i]!];
    }
    return mixed;
  };
}
