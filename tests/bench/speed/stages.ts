/** What a check did when, from the lines in which it says so. */
import type { Run } from './run-once.js';

export interface Stage {
  readonly name: string;
  /** ms. */
  readonly wall: number;
  /** ms of all threads. */
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
  [/^(Counting|Planning)/, 'quantities'],
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

/** The same stages, each less what it takes on an empty model. */
export const netOf = (stages: readonly Stage[], empty: readonly Stage[]): Stage[] =>
  stages.map((stage) => {
    const without = empty.find(({ name }) => name === stage.name);
    const less = (by: 'wall' | 'processor') => Math.max(0, stage[by] - (without?.[by] ?? 0));
    return { ...stage, wall: less('wall'), processor: less('processor') };
  });

export const stageTime = (stages: readonly Stage[], ...names: readonly string[]): number =>
  stages.filter(({ name }) => names.includes(name)).reduce((sum, { processor }) => sum + processor, 0);
