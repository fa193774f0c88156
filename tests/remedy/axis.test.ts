/** Closed forms against a search over every whole millimetre, which is the judge that knows nothing of them. */
import { describe, expect, it } from 'vitest';
import { type AxisProblem, type Edge, type Range, solveAxis } from '../../src/remedy/axis.js';
import { besideCorner, cornerGap, solveRound } from '../../src/remedy/round.js';
import { type Random, randomFrom } from './situations.js';

const RATES = [
  { move: 0.1, widen: 0.2, rebuild: 0.4 },
  { move: 2, widen: 0, rebuild: 1 },
  { move: 1, widen: 1, rebuild: 1 },
  { move: 0, widen: 3, rebuild: 0.5 },
];

const wholeIn = ({ from, to }: Range): number[] => {
  const list: number[] = [];
  for (let k = Math.ceil(from); k <= to; k++) list.push(k);
  return list;
};

const edge = (random: Random, allowed: Range): Edge => ({
  gap: random.tenths(-8, 30),
  allowed,
  reach: { from: -random.whole(0, 9), to: random.whole(0, 9) },
});

function drawn(random: Random): AxisProblem {
  const from = random.whole(2, 8);
  const allowed = { from, to: from + random.whole(1, 10) };
  return {
    shift: { from: -random.whole(0, 12), to: random.whole(0, 12) },
    pairs: Array.from({ length: random.whole(0, 2) }, () => ({
      low: edge(random, allowed),
      high: edge(random, allowed),
      sign: random.pick([1, -1] as const),
    })),
  };
}

/** The least cost of all whole millimetres; undefined where none will do. */
function searched({ shift, pairs }: AxisProblem, rates: (typeof RATES)[number]): number | undefined {
  const costOf = (by: number) => (by > 0 ? rates.widen * by : -rates.rebuild * by);
  const edgeCost = ({ gap, allowed, reach }: Edge, gain: number): number => {
    const fits = (by: number) => gap + gain + by >= allowed.from - 1e-6 && gap + gain + by <= allowed.to + 1e-6;
    return Math.min(...wholeIn(reach).filter(fits).map(costOf));
  };
  const costs = wholeIn(shift).map((s) =>
    pairs.reduce(
      (sum, { low, high, sign }) => sum + edgeCost(low, sign * s) + edgeCost(high, -sign * s),
      rates.move * Math.abs(s),
    ),
  );
  const least = Math.min(...costs);
  return Number.isFinite(least) ? least : undefined;
}

describe('the smallest change along an axis', () => {
  it('costs what the best of all whole millimetres costs, 20,000 times', () => {
    const random = randomFrom(7);
    let solved = 0;
    for (let n = 0; n < 20_000; n++) {
      const problem = drawn(random);
      const rates = random.pick(RATES);
      const found = solveAxis(problem, rates);
      const least = searched(problem, rates);
      expect(found === undefined, JSON.stringify(problem)).toBe(least === undefined);
      if (!found || least === undefined) continue;
      solved += 1;
      expect(found.cost, JSON.stringify(problem)).toBeCloseTo(least, 6);
      for (const [i, { low, high, sign }] of problem.pairs.entries()) {
        const by = found.edges[i]!;
        for (const [gap, { allowed }] of [
          [low.gap + sign * found.shift + by.low, low],
          [high.gap - sign * found.shift + by.high, high],
        ] as const)
          expect(gap >= allowed.from - 1e-6 && gap <= allowed.to + 1e-6, JSON.stringify(problem)).toBe(true);
      }
    }
    expect(solved).toBeGreaterThan(5000);
  });

  it('takes the smaller shift, then the positive one, where costs are equal', () => {
    const free = { move: 0, widen: 1, rebuild: 1 };
    const none: Range = { from: 0, to: 0 };
    const side = (gap: number): Edge => ({ gap, allowed: { from: 10, to: 50 }, reach: none });
    const low = side(5);
    const high = side(60);
    expect(solveAxis({ shift: { from: -99, to: 99 }, pairs: [{ low, high, sign: 1 }] }, free)?.shift).toBe(10);
    expect(solveAxis({ shift: { from: -99, to: 99 }, pairs: [] }, free)?.shift).toBe(0);
  });

  it('rounds to the safe side', () => {
    const low: Edge = { gap: 4.1, allowed: { from: 10, to: 50 }, reach: { from: 0, to: 99 } };
    const high: Edge = { ...low, gap: 30 };
    const found = solveAxis({ shift: { from: 0, to: 0 }, pairs: [{ low, high, sign: 1 }] }, RATES[0]!);
    expect(found?.edges).toEqual([{ low: 6, high: 0 }]);
  });
});

describe('a round duct', () => {
  it('in a round opening costs what the best of all whole millimetres costs, 3,000 times', () => {
    const random = randomFrom(8);
    let solved = 0;
    for (let n = 0; n < 3000; n++) {
      const from = random.whole(2, 6);
      const problem = {
        offset: [random.tenths(-10, 10), random.tenths(-10, 10)] as const,
        clear: random.tenths(-2, 16),
        allowed: { from, to: from + random.whole(2, 9) },
        shift: [
          { from: -random.whole(0, 8), to: random.whole(0, 8) },
          { from: -random.whole(0, 8), to: random.whole(0, 8) },
        ] as const,
        reach: { from: -random.whole(0, 8), to: random.whole(0, 8) },
      };
      const rates = random.pick(RATES);
      const costs = wholeIn(problem.reach).flatMap((d) =>
        wholeIn(problem.shift[0]).flatMap((x) =>
          wholeIn(problem.shift[1]).flatMap((y) => {
            const e = Math.hypot(problem.offset[0] + x, problem.offset[1] + y);
            const g = problem.clear + d / 2;
            const fits = g - e >= problem.allowed.from - 1e-6 && g + e <= problem.allowed.to + 1e-6;
            const work = d > 0 ? rates.widen * d : -rates.rebuild * d;
            return fits ? [work + rates.move * (Math.abs(x) + Math.abs(y))] : [];
          }),
        ),
      );
      const found = solveRound(problem, rates);
      expect(found === undefined, JSON.stringify(problem)).toBe(costs.length === 0);
      if (!found) continue;
      solved += 1;
      expect(found.cost, JSON.stringify(problem)).toBeCloseTo(Math.min(...costs), 6);
    }
    expect(solved).toBeGreaterThan(500);
  });

  it('in a rectangular opening has its widest gap where a walk along its outline finds it', () => {
    const random = randomFrom(9);
    for (let n = 0; n < 500; n++) {
      const [radius, one, other] = [random.whole(40, 400), random.tenths(-5, 120), random.tenths(-5, 120)];
      let most = Number.NEGATIVE_INFINITY;
      for (let k = 0; k <= 20_000; k++) {
        const angle = (k / 20_000) * (Math.PI / 2);
        most = Math.max(most, Math.min(one + radius * (1 - Math.sin(angle)), other + radius * (1 - Math.cos(angle))));
      }
      expect(cornerGap(radius, one, other)).toBeCloseTo(most, 1);
      const beside = besideCorner(radius, one, most);
      if (Number.isFinite(beside) && Math.abs(one - other) < radius) expect(beside).toBeCloseTo(other, 0);
    }
  });
});
