/** Plans that threads make are those that are made here. Threads run what is compiled. */
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { type CutPart, planCuts, type Stock } from '../../src/quantify/cutting/index.js';

const compiled = pathToFileURL(resolve('dist/src/platform/plan-pool.js')).href;
const { PlanPool } = (await import(compiled)) as typeof import('../../src/platform/plan-pool.js');
const pool = new PlanPool();
afterAll(() => pool.close());

const ROLL: Stock = { id: 'roll', form: 'roll', length: 7620, width: 610, kerf: 0 };
const BOARD: Stock = { id: 'board', form: 'sheet', length: 2500, width: 1200, kerf: 3 };
const BAR: Stock = { id: 'bar', form: 'bar', length: 6000, kerf: 3 };
const parts = (...sizes: readonly (readonly [length: number, width: number, count: number])[]): CutPart[] =>
  sizes.map(([length, width, count], i) => ({ id: `P${i}`, length, width, count }));
const ASKED: readonly (readonly [readonly CutPart[], Stock])[] = [
  [parts([2400, 610, 7], [1830, 300, 5], [900, 280, 11]), ROLL],
  [parts([1210, 640, 3], [700, 550, 9], [300, 280, 20]), BOARD],
  [[700, 1150, 2300].map((length, i) => ({ id: `P${i}`, length, count: 4 + i })), BAR],
];

it('makes the same plans, whichever is asked for first', async () => {
  const here = await Promise.all(ASKED.map(([cut, stock]) => planCuts(cut, [stock])));
  const asked = await Promise.all(ASKED.map(([cut, stock]) => pool.plan(cut, [stock], {})));
  const backwards = await Promise.all(ASKED.toReversed().map(([cut, stock]) => pool.plan(cut, [stock], {})));
  expect(asked).toEqual(here);
  expect(backwards.toReversed()).toEqual(here);
});

it('says what a plan that is none says, and ends when it is told to', async () => {
  await expect(pool.plan(parts([9000, 610, 1]), [ROLL], {})).rejects.toThrow('9000');
  const stop = new AbortController();
  const many = Array.from({ length: 60 }, (_, i): [number, number, number] => [1500 + 13 * i, 150 + 7 * i, 40]);
  const planning = pool.plan(parts(...many), [ROLL], { signal: stop.signal });
  stop.abort(new Error('enough'));
  await expect(planning).rejects.toThrow('enough');
  expect((await pool.plan(parts([1000, 610, 3]), [ROLL], {})).used).toHaveLength(1);
});
