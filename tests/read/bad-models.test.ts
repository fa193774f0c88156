/** Whatever a model holds: one clear line, or a report that names what could not be read. Never a crash, never a hang. */
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { timeLimitsFor } from '../../src/read/limits.js';
import { temporaryFolder } from '../cli/program.js';
import { rules } from '../shipped-rules.js';
import { BAD_MODELS, whole } from './bad-models.js';

/** As it is shipped, since workers load compiled files. */
const shipped = <T>(path: string): Promise<T> => import(pathToFileURL(resolve('dist', 'src', path)).href) as Promise<T>;
const { review } = await shipped<typeof import('../../src/review/review.js')>('review/review.js');
const { workerReader } =
  await shipped<typeof import('../../src/platform/worker-reader.js')>('platform/worker-reader.js');

async function reviewed(
  name: string,
  bytes: Uint8Array,
  elementSeconds?: number,
): Promise<{ line: string } | { problems: string[] }> {
  const common = { rules, constructions: [], createdAt: '2026-01-01T00:00:00Z', toolVersion: '0' };
  const limits = (size: number) => ({
    ...timeLimitsFor(size),
    ...(elementSeconds !== undefined && { elementSeconds }),
  });
  const reader = workerReader(undefined, limits);
  try {
    const { report } = await review({ ...common, models: [{ name, bytes }], reader });
    return { problems: report.models.flatMap((model) => model.problems.map(({ message }) => message)) };
  } catch (error) {
    if (error instanceof Error && error.constructor.name === 'InputError') return { line: error.message };
    throw error;
  }
}

describe('a bad model is refused in one line, or read with problems', () => {
  it.each(BAD_MODELS.map((bad) => [bad.kind, bad] as const))(
    '%s',
    async (_, { name = 'bad.ifc', bytes, elementSeconds, refused, problem }) => {
      const result = await reviewed(name, bytes(), elementSeconds);
      if ('line' in result) {
        expect(result.line).toMatch(refused ?? /^$/);
        expect(result.line).not.toMatch(/\n|undefined|Cannot read|is not a function/);
        expect(result.line.startsWith(`${name} `)).toBe(true);
      } else {
        expect(refused, result.problems.join('\n')).toBeUndefined();
        if (problem) expect(result.problems.join('\n')).toMatch(problem);
        expect(result.problems.join('\n')).not.toMatch(/Cannot read|is not a function/);
      }
    },
    120_000,
  );
});

describe('what is no file that can be read', () => {
  const folder = temporaryFolder();
  const check = (model: string, as: { uid?: number } = {}) =>
    spawnSync(process.execPath, [resolve('dist/src/cli/main.js'), 'check', model, '--out', 'out', '--quiet'], {
      cwd: folder,
      encoding: 'utf8',
      ...as,
    });
  const expectRefused = ({ status, stderr, stdout }: ReturnType<typeof check>, line: RegExp): void => {
    expect(status).toBe(2);
    expect(stderr.trimEnd().split('\n')).toEqual([expect.stringMatching(line)]);
    expect(stdout).toBe('');
    expect(existsSync(join(folder, 'out'))).toBe(false);
  };

  it('a folder', () => {
    mkdirSync(join(folder, 'folder.ifc'));
    expectRefused(check('folder.ifc'), /folder\.ifc is a folder/);
  });

  it('a file that may not be read', () => {
    const path = join(folder, 'secret.ifc');
    writeFileSync(path, whole);
    chmodSync(path, 0);
    // To root nothing is forbidden, so it asks as nobody.
    expectRefused(check('secret.ifc', process.getuid?.() === 0 ? { uid: 65534 } : {}), /may not be read by you/);
  });

  it('a file that is refused leaves no output', () => {
    writeFileSync(join(folder, 'cut.ifc'), whole.slice(0, 3000));
    expectRefused(check('cut.ifc'), /cut\.ifc is cut off/);
  });
});
