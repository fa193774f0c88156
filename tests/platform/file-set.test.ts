/** Outputs are replaced as one set: at every single step a writer is killed, told to stop, or has its disk full. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeOutputs } from '../../src/cli/io.js';
import { COMMIT } from '../../src/platform/file-set.js';
import { temporaryFolder } from '../cli/program.js';
import type { Fault } from '../kill/at-step.js';
import { plainSetIn, setIn, setOf } from '../kill/sets.js';
import { type Ended, type StartOptions, start, WRITE_SETS } from '../kill/start.js';

const root = temporaryFolder();
const [OLD, NEW, LATER] = [1, 2, 4];
/** Some hundred processes take 10 s on two cores that are idle. */
const SLOW = { timeout: 300_000 };
const leftovers = (folder: string): string[] => readdirSync(folder).filter((name) => name.startsWith('.ratedrun'));

async function folderWithOldSet(name: string): Promise<string> {
  const folder = join(root, name);
  await write(folder, OLD);
  return folder;
}

const write = (folder: string, tag: number) => writeOutputs(folder, setOf(tag).files, setOf(tag));
/** In a process of its own. */
const writer = (folder: string, tag: number, options: StartOptions = {}) =>
  start(WRITE_SETS, [folder, String(tag)], options);

interface Broken {
  readonly step: number;
  readonly ended: Ended;
  /** What any other program finds right after; undefined: a mix. */
  readonly plain: number | null | undefined;
  readonly left: readonly string[];
  /** What readers of the program find. */
  readonly read: number | null;
}

/** A writer of the new set, broken at every step that it has. */
async function brokenAtEveryStep(fault: Fault): Promise<Broken[]> {
  const countTo = join(root, `${fault} steps`);
  const counting = await folderWithOldSet(`${fault} counted`);
  await writer(counting, NEW, { at: { folder: counting, step: 0, fault, countTo } });
  const steps = Number(readFileSync(countTo, 'utf8'));
  expect(steps).toBeGreaterThan(30);
  const all = Array.from({ length: steps }, (_, i) => i + 1);
  return inFours(all, async (step) => {
    const folder = await folderWithOldSet(`${fault} ${step}`);
    const ended = await writer(folder, NEW, { at: { folder, step, fault } });
    const [plain, left] = [plainOrMix(folder), leftovers(folder)];
    const read = await setIn(folder);
    // What readers find is now what everybody finds.
    expect([plainSetIn(folder), existsSync(join(folder, COMMIT))], `step ${step}`).toEqual([read, false]);
    // The next run leaves nothing of what was left.
    await write(folder, LATER);
    expect([plainSetIn(folder), leftovers(folder)], `step ${step}`).toEqual([LATER, []]);
    rmSync(folder, { recursive: true });
    return { step, ended, plain, left, read };
  });
}

function plainOrMix(folder: string): number | null | undefined {
  try {
    return plainSetIn(folder);
  } catch {
    return undefined;
  }
}

async function inFours<T, R>(all: readonly T[], work: (one: T) => Promise<R>): Promise<R[]> {
  const results: R[] = [];
  const next = all.values();
  const worker = async (): Promise<void> => {
    for (const one of next) results.push(await work(one));
  };
  await Promise.all(Array.from({ length: 4 }, worker));
  return results;
}

describe('a writer that is broken at any step', () => {
  it(
    'killed: the old set or the new one, and a mix in the folder only while the rest waits beside it',
    SLOW,
    async () => {
      const broken = await brokenAtEveryStep('SIGKILL');
      for (const { step, ended, plain, left, read } of broken) {
        expect(ended.signal, `step ${step}`).toBe('SIGKILL');
        expect([OLD, NEW], `step ${step}`).toContain(read);
        if (plain === undefined) expect(left, `step ${step}`).toEqual([COMMIT]);
        else if (!left.includes(COMMIT)) expect(plain, `step ${step}`).toBe(read);
      }
      const inOrder = broken.sort((a, b) => a.step - b.step).map(({ read }) => read);
      // Once it holds it holds.
      expect(inOrder).toEqual([...inOrder].sort());
      expect(new Set(inOrder)).toEqual(new Set([OLD, NEW]));
    },
  );

  it('told to stop: it ends as told, with all in place and nothing left', SLOW, async () => {
    for (const fault of ['SIGINT', 'SIGTERM'] as const)
      for (const step of [1, 9, 11, 20, 28]) {
        const folder = await folderWithOldSet(`${fault} ${step}`);
        const ended = await writer(folder, NEW, { at: { folder, step, fault } });
        expect(ended, `step ${step}`).toMatchObject({ code: null, signal: fault });
        expect([plainSetIn(folder), leftovers(folder)]).toEqual([2, []]);
      }
  });

  it('without room on its disk: the old set and one line, or the new one', SLOW, async () => {
    const broken = await brokenAtEveryStep('ENOSPC');
    for (const { step, ended, plain, left, read } of broken) {
      expect([OLD, NEW], `step ${step}`).toContain(read);
      if (plain === undefined) expect(left, `step ${step}`).toEqual([COMMIT]);
      if (ended.code === 0) expect(read, `step ${step}`).toBe(2);
      else expect([ended.code, ended.err.trim().split('\n').length], `step ${step}: ${ended.err}`).toEqual([2, 1]);
      if (ended.err.includes('can not be written')) expect(read, `step ${step}`).toBe(1);
    }
    expect(broken.some(({ ended }) => ended.err.includes('can not be written (ENOSPC)'))).toBe(true);
    expect(broken.some(({ ended }) => ended.err.includes(`they wait in ${COMMIT}`))).toBe(true);
  });
});

const isRoot = process.getuid?.() === 0;
const NOBODY = 65_534;

describe('a folder', () => {
  it('on a disk that is full keeps the old set', async ({ skip }) => {
    const disk = join(root, 'disk');
    mkdirSync(disk);
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=128k', 'tmpfs', disk]).status === 0;
    skip(!mounted, 'only root may mount a small disk');
    try {
      const folder = join(disk, 'report');
      await write(folder, OLD);
      const block = Buffer.alloc(4096);
      expect(() => {
        for (let i = 0; ; i++) writeFileSync(join(disk, `block-${i}`), block);
      }).toThrow('ENOSPC');
      rmSync(join(disk, 'block-0')); // the first file fits, the second is cut
      const ended = await writer(folder, NEW);
      expect([ended.code, ended.err]).toEqual([
        2,
        `${folder} can not be written (ENOSPC); choose another folder with --out.\n`,
      ]);
      expect([await setIn(folder), leftovers(folder)]).toEqual([1, []]);
    } finally {
      spawnSync('umount', [disk]);
    }
  });

  it('that may not be written keeps the old set, and can be read', async () => {
    const folder = await folderWithOldSet('read-only');
    spawnSync('chmod', ['a-w,a+rX', root, folder]);
    try {
      const ended = await writer(folder, NEW, isRoot ? { uid: NOBODY } : {});
      expect(ended.err).toBe(`${folder} can not be written (EACCES); choose another folder with --out.\n`);
      expect([ended.code, await setIn(folder), leftovers(folder)]).toEqual([2, 1, []]);
    } finally {
      spawnSync('chmod', ['u+w', root, folder]);
    }
  });

  it('with a folder in the place of a file keeps the old set', async () => {
    const folder = await folderWithOldSet('in-the-way');
    rmSync(join(folder, 'register.xlsx'));
    mkdirSync(join(folder, 'register.xlsx'));
    const ended = await writer(folder, NEW);
    expect([ended.code, ended.err]).toEqual([
      2,
      `${folder} can not be written (EISDIR); choose another folder with --out.\n`,
    ]);
    expect(leftovers(folder)).toEqual([]);
  });
});

describe('several at once', () => {
  it('writers never mix their sets, and readers never see a mix', SLOW, async () => {
    const folder = await folderWithOldSet('shared');
    const tags = (from: number) => Array.from({ length: 40 }, (_, i) => String(from + i));
    let isWriting = true;
    const writers = Promise.all([100, 201, 300].map((from) => start(WRITE_SETS, [folder, ...tags(from)])));
    const seen = new Set<number | null>();
    const readers = Array.from({ length: 2 }, async () => {
      while (isWriting) {
        seen.add(await setIn(folder));
        await new Promise((go) => setImmediate(go)); // the end of a writer has to be heard
      }
    });
    const ended = await writers;
    isWriting = false;
    await Promise.all(readers);
    for (const one of ended) expect([one.code, one.err]).toEqual([0, '']);
    expect([139, 240, 339]).toContain(plainSetIn(folder));
    expect(leftovers(folder)).toEqual([]);
    expect(seen.size).toBeGreaterThan(3);
  });
});

describe('what killed runs left', () => {
  it('goes with the next run; what may still be somebody’s stays', async () => {
    const folder = await folderWithOldSet('left');
    const host = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
    const dead = spawnSync(process.execPath, ['-e', '']).pid;
    const id = '0123456789abcdef';
    const [gone, aged] = [`.ratedrun-${dead}-${host}-${id}`, `.ratedrun-7-00000000-${id}`];
    const running = `.ratedrun-${process.pid}-${host}-${id}`;
    const elsewhere = `.ratedrun-7-11111111-${id}`;
    const others = ['.ratedrun-cache', '.ratedrun-notes', 'mine'];
    for (const name of [gone, aged, running, elsewhere, ...others])
      mkdirSync(join(folder, name, id), { recursive: true });
    const longAgo = new Date(Date.now() - 25 * 3600 * 1000);
    for (const name of [aged, ...others]) utimesSync(join(folder, name), longAgo, longAgo);
    await write(folder, NEW);
    expect(leftovers(folder).sort()).toEqual([running, elsewhere, '.ratedrun-cache', '.ratedrun-notes'].sort());
    expect(existsSync(join(folder, 'mine'))).toBe(true);
  });
});
