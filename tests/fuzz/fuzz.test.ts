/** 300 runs of the fuzzer; `npm run fuzz` does ten thousand. */
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { parts } from './buildings.js';
import { randomOf } from './random.js';
import { boxOf, ratingsOf } from './reread.js';
import { StepText } from './step-text.js';

const { fuzz } = (await import(pathToFileURL(resolve('dist/tests/fuzz/pool.js')).href)) as typeof import('./pool.js');

it('300 mutants: no crash, no hang, no false pass', { timeout: 600_000 }, async () => {
  const { runs, faults, ends, passes, reread } = await fuzz({
    ...{ runs: 300, seed: 20_261_126, threads: 2, shares: { parts: 40, cases: 60, demo: 0 } },
  });
  expect(faults.map(({ seed, end, what, detail }) => `${seed}: ${end}: ${what}: ${detail}`)).toEqual([]);
  expect(runs).toBe(300);
  // Mutants bite, and passes are there to be wrong and are looked into: otherwise nothing was tried.
  expect(ends.refused).toBeGreaterThan(5);
  expect(passes).toBeGreaterThan(1000);
  expect(reread).toBeGreaterThan(passes / 10);
});

it('rereads what was built', () => {
  const [netStore] = parts();
  const step = new StepText(netStore!.files[0]!.text);
  const walls = step.all('IFCWALL');
  expect(walls.length).toBeGreaterThan(0);
  for (const wall of walls) {
    const box = boxOf(step, wall);
    expect(box && Math.min(box.width, box.height, box.depth)).toBeGreaterThan(50);
  }
  expect(walls.flatMap((wall) => ratingsOf(step, wall))).toContain('-/60/60');
});

it('makes the same numbers from a seed', () => {
  const [a, b] = [randomOf(5), randomOf(5)];
  expect(Array.from({ length: 10 }, a.next)).toEqual(Array.from({ length: 10 }, b.next));
  expect(randomOf(6).next()).not.toBe(randomOf(5).next());
});
