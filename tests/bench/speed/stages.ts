/** What a check did when, from the lines in which it says so. */
import type { Run } from './run-once.js';

export interface Stage {
  readonly name: string;
  readonly wall: number;
  readonly processor: number;
  /** MB that the peak of the process rose by. */
  readonly rise: number;
}

/** By how the program's lines begin; the time until the first is that of loading program and rules. */
const NAMES: readonly (readonly [RegExp, string])[] = [
  [/^Read/, 'reading'],
  [/^Finding/, 'finding'],
  [/^Measuring/, 'measuring'],
  [/^Judging/, 'judging'],
  [/^Solving/, 'remedies'],
  [/^Counting/, 'quantities'],
  [/^Putting/, 'report'],
  [/^Writing/, 'writing'],
];

/** In the order in which they began; what is said under an unknown name keeps it. */
export function stagesOf({ marks }: Run): Stage[] {
  const stages = new Map<string, Stage>();
  let [name, before] = ['start', { wall: 0, processor: 0, peak: 0 }];
  for (const mark of marks) {
    const known = stages.get(name) ?? { name, wall: 0, processor: 0, rise: 0 };
    stages.set(name, {
      name,
      wall: known.wall + mark.wall - before.wall,
      processor: known.processor + mark.processor - before.processor,
      rise: known.rise + mark.peak - before.peak,
    });
    name = NAMES.find(([begin]) => begin.test(mark.stage))?.[1] ?? mark.stage;
    before = mark;
  }
  return [...stages.values()];
}

export const stageTime = (stages: readonly Stage[], ...names: readonly string[]): number =>
  stages.filter(({ name }) => names.includes(name)).reduce((sum, { processor }) => sum + processor, 0);
