import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { draw } from './instrument.js';

const folder = mkdtempSync(join(tmpdir(), 'ratedrun-mutants-'));
afterAll(() => rmSync(folder, { recursive: true }));
const file = (name: string, text: string) => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const small = file('small.ts', 'export const less = (a: number, b: number) => a < b;\n');
const large = file(
  'large.ts',
  Array.from({ length: 20 }, (_, i) => `export const more${i} = (a: number) => a + ${i};\n`).join(''),
);

it('draws the same mutants by the same seed, and some of every file', async () => {
  const first = await draw([small, large], { seed: 3, sample: 6 });
  expect(await draw([small, large], { seed: 3, sample: 6 })).toEqual(first);
  expect(first.mutants).toHaveLength(6);
  expect(new Set(first.mutants.map((mutant) => mutant.file)).size).toBe(2);
  const other = await draw([small, large], { seed: 4, sample: 6 });
  expect(other.mutants.map(({ line, column }) => [line, column])).not.toEqual(
    first.mutants.map(({ line, column }) => [line, column]),
  );
});

it('puts a mutant where it says, behind a switch', async () => {
  const { mutants, code } = await draw([small], { seed: 1, sample: 100 });
  const text = Object.values(code)[0]!;
  const less = mutants.find(({ replacement }) => replacement === 'a <= b');
  expect(less).toMatchObject({ line: 1, code: 'a < b', kind: 'EqualityOperator' });
  expect(text).toContain(`stryMutAct_9fa48("${less?.id}")`);
  expect(text).toContain('a <= b');
});
