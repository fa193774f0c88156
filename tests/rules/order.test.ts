import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/model.js';
import { crossedBarriers } from '../../src/rules/crossed-barriers.js';
import { type JudgeOptions, judge } from '../../src/rules/index.js';
import {
  barrier,
  crossings,
  facingEnds,
  gaps,
  modelInfo,
  penetration,
  rating,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
import { shippedRules } from './rule-cases.js';

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
      at(7, { barrier: barrier({ globalId: 'W4', name: 'Wall 4', rating: UNREADABLE }), position: [9000, 0, 2000] }),
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

  it('keys stay when the ids of penetrations change places', () => {
    const renamed = new Map(found.penetrations.map(({ id }, i, { length }) => [id, `P-${9000 + length - i}`]));
    const other = {
      ...found,
      penetrations: found.penetrations.map((one) => ({
        ...one,
        id: renamed.get(one.id)!,
        neighbours: one.neighbours.map((near) => ({ ...near, penetration: renamed.get(near.penetration)! })),
      })),
    };
    const byKey = (options: JudgeOptions, from: typeof found) =>
      new Map(judge(from, shippedRules, options).findings.map(({ key, check, measured }) => [key, [check, measured]]));
    expect(byKey({ allFindings: true }, other)).toEqual(byKey({ allFindings: true }, found));
    expect(byKey({}, other)).toEqual(byKey({}, found));
  });

  it('keys do not hang on what else is listed, even where GlobalIds repeat', () => {
    const twins = crossings({
      penetrations: [
        penetration({ id: 'P-0002', key: 'key-1', barrier: W(1, 60) }),
        penetration({ barrier: barrier({ globalId: 'W1', model: 'm3' }), skew: 40 }),
      ],
    });
    const keyOf = (options: JudgeOptions) =>
      judge(twins, shippedRules, options).findings.find(
        ({ check, outcome }) => /skew/.test(check) && outcome === 'failed',
      )?.key;
    expect(keyOf({})).toMatch(/^[0-9a-f]{16}$/);
    expect(keyOf({ allFindings: true })).toBe(keyOf({}));
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

it('looks at barriers by the ids of what passes them, then by the keys of ends that face each other', () => {
  const at = (n: number) => ({ barrier: barrier({ globalId: `W${n}` }) });
  const crossed = crossedBarriers(
    crossings({
      penetrations: [penetration({ id: 'P-0002', ...at(2) }), penetration({ id: 'P-0001', ...at(1) })],
      facingEnds: [facingEnds({ key: 'b', ...at(4) }), facingEnds({ key: 'a', ...at(3) })],
    }),
  );
  expect(crossed.map(({ seen }) => seen[0]!.globalId)).toEqual(['W1', 'W2', 'W3', 'W4']);
});

it('takes two barriers under one GlobalId for two where anything else tells them apart', () => {
  const storey = (globalId: string) => ({ globalId, name: 'Level', elevation: 0 });
  const one = { globalId: 'W', name: 'Wall', kind: 'wall', storey: storey('S1') } as const;
  const count = (changes: Parameters<typeof barrier>[0]) =>
    crossedBarriers(
      crossings({
        penetrations: [one, { ...one, ...changes }].map((own, i) =>
          penetration({ id: `P-000${i}`, barrier: barrier(own) }),
        ),
      }),
    ).length;
  expect(count({})).toBe(1);
  expect(count({ thickness: 90, rating: UNSTATED })).toBe(1);
  expect(count({ storey: storey('S2') })).toBe(2);
  expect(count({ storey: null })).toBe(2);
  expect(count({ name: 'Wall 2' })).toBe(2);
  expect(count({ kind: 'floor' })).toBe(2);
  expect(count({ model: 'm9' })).toBe(2);
  expect(count({ globalId: 'W2' })).toBe(2);
});
