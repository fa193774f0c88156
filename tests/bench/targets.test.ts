import { describe, expect, it } from 'vitest';
import type { Measured } from './speed/measure.js';
import { medianRun, type Run } from './speed/run-once.js';
import { netOf, stagesOf, stageTime } from './speed/stages.js';
import { exponent, verdicts } from './speed/targets.js';

const run = (...marks: readonly (readonly [string, number, number])[]): Run => ({
  ...{ wall: 0, processor: marks.at(-1)![1], peak: 0 },
  marks: marks.map(([stage, at, peak]) => ({ stage, wall: 2 * at, processor: at, peak })),
});

const measured = (
  file: string,
  storeys: number | null,
  rest: Partial<Measured['alone']> & { check: number },
): Measured => ({
  ...{ file, storeys, kind: storeys === null ? 'real' : 'generated', megabytes: 10, runs: 1 },
  alone: { wall: 1000, processor: 1000, peak: 100, ...rest },
  check: {
    ...{ wall: rest.check, processor: rest.check, peak: rest.peak ?? 340, penetrations: 1 },
    stages: [{ name: 'measuring', wall: rest.check, processor: rest.check, rise: 200 }],
  },
});

describe('the bench of speed', () => {
  it('tells a stage from the line that begins it', () => {
    const stages = stagesOf(
      run(['Reading a.ifc', 100, 50], ['Read a.ifc', 150, 60], ['Finding', 300, 90], ['', 700, 90]),
    );
    expect(stages.map(({ name, processor, wall, rise }) => [name, processor, wall, rise])).toEqual([
      ['start', 100, 200, 50],
      ['reading', 200, 400, 40],
      ['finding', 400, 800, 0],
    ]);
    expect(stageTime(stages, 'reading', 'finding')).toBe(600);
    const empty = stagesOf(run(['Reading e.ifc', 90, 50], ['', 340, 60]));
    expect(netOf(stages, empty).map(({ name, processor, wall }) => [name, processor, wall])).toEqual([
      ['start', 10, 20],
      ['reading', 0, 0],
      ['finding', 400, 800],
    ]);
  });

  it('takes the run in the middle by processor time', () => {
    expect(medianRun([run(['', 9, 0]), run(['', 1, 0]), run(['', 5, 0])]).processor).toBe(5);
  });

  // 3·x^1.25 has a straight line of slope 1.25 for its logarithms: closed form.
  it('finds the exponent of a power', () => {
    expect(exponent([32, 128, 256].map((x) => [x, 3 * x ** 1.25]))).toBeCloseTo(1.25, 10);
  });

  it('says of each target whether it is held, and why not', () => {
    const [first, ...more] = verdicts([
      measured('tower-32', 32, { check: 100 }),
      measured('tower-128', 128, { check: 400 }),
      measured('tower-256', 256, { check: 1600, peak: 341 }),
      measured('quick.ifc', null, { check: 2000, processor: 200 }),
      measured('slow.ifc', null, { check: 1001 }),
      { ...measured('broken', null, { check: 0 }), check: { error: 'ended with exit code 2: why' } },
    ]);
    expect(first).toEqual({ target: 'broken: the check ends', held: false, found: 'ended with exit code 2: why' });
    const held = more.map(({ target, held }) => [target.replace(/:.*/, ''), held]);
    expect(held).toEqual([
      ['tower-128', true],
      ['tower-256', false],
      ['slow.ifc', false],
      ['finding + measuring grow by an exponent of at most 1.1 from 32 to 256 storeys', false],
      ['tower-32', true],
      ['tower-128', true],
      ['tower-256', false],
      ['quick.ifc', true],
      ['slow.ifc', true],
    ]);
    expect(more[1]!.found).toBe('1.60 × (wall clock 1.60 ×): measuring 1.6 s (100 %)');
    expect(more[6]!.found).toContain('rises by 200 MB in measuring');
  });
});
