import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bounds, type TapeScale, tapeScale } from '../../viewer/parts/tape-scale.js';

const WIDTH = 240;

/** Ends of the allowed range, px. */
const allowed = ({ allowed: ranges }: TapeScale): [number, number] => [
  Math.min(...ranges.map(({ x }) => x)),
  Math.max(...ranges.map(({ x, width }) => x + width)),
];

const limitAt = ({ limits }: TapeScale, value: number): number => limits.find((one) => one.value === value)!.x;

describe('a tape', () => {
  it('is true to scale: 70, allowed 10 to 50', () => {
    const tape = tapeScale(70, { atLeast: 10, atMost: 50 }, WIDTH);
    expect(tape.parts).toHaveLength(1);
    const perUnit = tape.parts[0]!.width / (tape.parts[0]!.to - tape.parts[0]!.from);
    expect(limitAt(tape, 50) - limitAt(tape, 10)).toBeCloseTo(40 * perUnit, 9);
    expect(tape.notch - limitAt(tape, 50)).toBeCloseTo(20 * perUnit, 9);
    expect(allowed(tape)).toEqual([limitAt(tape, 10), limitAt(tape, 50)].map((x) => expect.closeTo(x, 9)));
    expect(tape.ticks[0]).toMatchObject({ value: 0, x: 0 });
  });

  it('hatches what is allowed to its end where there is no other bound', () => {
    const atMost = tapeScale(25, { atMost: 10 }, WIDTH);
    expect(allowed(atMost)).toEqual([0, expect.closeTo(limitAt(atMost, 10), 9)]);
    const atLeast = tapeScale(50, { atLeast: 300 }, WIDTH);
    expect(allowed(atLeast)).toEqual([expect.closeTo(limitAt(atLeast, 300), 9), expect.closeTo(WIDTH, 9)]);
    // Nothing but 0 is allowed, and still a range is to be seen beside it.
    const none = tapeScale(2700, { atMost: 0 }, WIDTH);
    expect(limitAt(none, 0)).toBeGreaterThan(10);
    expect(allowed(none)).toEqual([0, expect.closeTo(limitAt(none, 0), 9)]);
  });

  it('shows a single allowed value as a range that can be seen', () => {
    const tape = tapeScale(3, { atLeast: 5, atMost: 5 }, WIDTH);
    const [from, to] = allowed(tape);
    expect(to - from).toBeGreaterThanOrEqual(4);
    expect((from + to) / 2).toBeCloseTo(limitAt(tape, 5), 9);
    expect(tape.limits).toHaveLength(1);
  });

  it('is cut where the value lies far outside, at the same scale on both sides', () => {
    const tape = tapeScale(2000, { atLeast: 10, atMost: 50 }, WIDTH);
    expect(tape.parts.map(({ from, to }) => from <= 50 && to < 2000)).toEqual([true, false]);
    const scales = tape.parts.map(({ from, to, width }) => width / (to - from));
    expect(scales[0]).toBeCloseTo(scales[1]!, 9);
    expect(limitAt(tape, 50) - limitAt(tape, 10)).toBeGreaterThan(60);
  });

  it('leaves zero out where it would make the difference too small to be seen', () => {
    const tape = tapeScale(3700, { atMost: 3600 }, WIDTH);
    expect(tape.isCutAtZero).toBe(true);
    expect(tape.notch - limitAt(tape, 3600)).toBeGreaterThan(60);
    expect(tapeScale(25, { atMost: 10 }, WIDTH).isCutAtZero).toBe(false);
  });

  it('keeps everything on the tape, in order, and numbers apart, whatever the numbers are', () => {
    // What reports say is rounded to a hundredth.
    const value = fc.oneof(
      fc.integer({ min: -500, max: 10_000 }),
      fc.integer({ min: 0, max: 1e8 }).map((hundredths) => hundredths / 100),
    );
    const bounds: fc.Arbitrary<Bounds> = fc.oneof(
      value.map((atLeast) => ({ atLeast })),
      value.map((atMost) => ({ atMost })),
      fc.tuple(value, value).map(([a, b]) => ({ atLeast: Math.min(a, b), atMost: Math.max(a, b) })),
    );
    fc.assert(
      fc.property(value, bounds, (measured, limit) => {
        const tape = tapeScale(measured, limit, WIDTH);
        const places = [tape.notch, ...tape.limits.map(({ x }) => x), ...tape.ticks.map(({ x }) => x)];
        for (const x of places) expect(x >= -1e-6 && x <= WIDTH + 1e-6).toBe(true);
        for (const { value: bound, x } of tape.limits)
          if (bound !== measured) expect(Math.sign(tape.notch - x)).toBe(Math.sign(measured - bound));
        expect(tape.ticks.length).toBeLessThan(80);
        const labels = tape.ticks.filter(({ isLabelled }) => isLabelled).map(({ x }) => x);
        for (const part of tape.parts) {
          const own = labels.filter((x) => x >= part.x && x <= part.x + part.width);
          for (const [i, x] of own.slice(1).entries()) expect(x - own[i]!).toBeGreaterThan(41.9);
        }
      }),
    );
  });
});
