/** `--write pdf` as a person meets it: with a Chromium, without one, and with one that fails. */
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { ChromiumError, printToPdf } from '../../src/platform/chromium.js';
import { chromium } from '../chromium.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
const b = new ModelBuilder({ fileName: 'one.ifc' });
b.opening(b.wall(WALL), OPENING);
b.duct(DUCT);
writeFileSync(join(folder, 'one.ifc'), b.toString());

afterEach(() => {
  vi.unstubAllEnvs();
});

const empty = join(folder, 'nothing-here');
mkdirSync(empty);

/** A program that takes Chromium's place. */
function standIn(name: string, ...lines: readonly string[]): string {
  const path = join(folder, name);
  writeFileSync(path, ['#!/bin/sh', ...lines, ''].join('\n'));
  chmodSync(path, 0o755);
  return path;
}

const PDF_ONLY = ['--write', 'pdf', '--quiet', '--nonzero-for', 'nothing'];

describe('without a Chromium', () => {
  it.each([
    ['none on PATH', { PATH: empty, RATEDRUN_CHROMIUM: '' }, /needs Chromium, and none is on PATH; install it/],
    [
      'a path that leads nowhere',
      { RATEDRUN_CHROMIUM: join(empty, 'x') },
      /RATEDRUN_CHROMIUM is .*x, which is no program/,
    ],
    ['a folder', { RATEDRUN_CHROMIUM: empty }, /which is no program that can be run/],
  ] as const)('%s: one line, before anything is read', (_, env, line) => {
    // The model does not exist either: nobody got as far as looking.
    const ran = ratedrun(folder, ['check', 'missing.ifc', '--out', 'none', ...PDF_ONLY], env);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(line);
    expect(ran.err.trim().split('\n')).toHaveLength(1);
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });
});

const PAGE = new TextEncoder().encode('<p>');
const TARGET = `for a in "$@"; do case "$a" in --print-to-pdf=*) out="\${a#--print-to-pdf=}";; esac; done`;

describe('with a Chromium that fails', () => {
  it.each([
    ['stops with an error', ['exit 7'], /stopped with 7/],
    ['says all is well and writes nothing', ['exit 0'], /wrote no whole PDF/],
    ['writes half a file', [TARGET, 'printf "%%PDF-1.4 and no more" > "$out"'], /wrote no whole PDF/],
    ['is killed', ['kill -9 $$'], /stopped with SIGKILL/],
  ])('one that %s: one line, nothing left behind', async (name, lines, line) => {
    const own = join(folder, `tmp ${name}`);
    mkdirSync(own);
    vi.stubEnv('TMPDIR', own);
    const printing = printToPdf(standIn(`fails ${name}`, ...lines), PAGE, { createdAt: new Date(0) });
    await expect(printing).rejects.toThrow(ChromiumError);
    await expect(printing).rejects.toThrow(line);
    expect(readdirSync(own)).toEqual([]);
  });

  it('no output is left half written, and one line says why', () => {
    const env = { RATEDRUN_CHROMIUM: standIn('fails', 'exit 7') };
    const ran = ratedrun(folder, ['check', 'one.ifc', '--out', 'out', ...PDF_ONLY], env);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/^ratedrun: .*stopped with 7, so report\.pdf was not made; .*\n$/);
    expect(existsSync(join(folder, 'out'))).toBe(false);
  });

  it('one that hangs is ended in time, with all that it started', async () => {
    const pids = join(folder, 'pids');
    const hanging = standIn('hangs', 'sleep 300 &', `echo $$ $! > "${pids}"`, 'wait');
    const started = performance.now();
    const printing = printToPdf(hanging, PAGE, { createdAt: new Date(0), timeout: 1 });
    await expect(printing).rejects.toThrow(ChromiumError);
    await expect(printing).rejects.toThrow(/took longer than 1 s/);
    expect(performance.now() - started).toBeLessThan(20_000);
    const [shell, sleeper] = readFileSync(pids, 'utf8').trim().split(' ').map(Number);
    for (const pid of [shell!, sleeper!]) await expect.poll(() => isRunning(pid), { timeout: 5000 }).toBe(false);
  });
});

/** A process that has ended and that nobody waited for (a zombie) runs no more. */
function isRunning(pid: number): boolean {
  const stat = `/proc/${pid}/stat`;
  return existsSync(stat) && !/\) [ZX] /.test(readFileSync(stat, 'latin1'));
}

describe.skipIf(chromium === undefined)('with a Chromium', () => {
  it('prints report.html to report.pdf, the same bytes for the same input, dated by the review', async () => {
    const write = ['--write', 'html,pdf', '--quiet', '--nonzero-for', 'nothing'];
    const env = { SOURCE_DATE_EPOCH: String(CREATED.getTime() / 1000) };
    expect(ratedrun(folder, ['check', 'one.ifc', '--out', 'whole', ...write], env)).toMatchObject({ code: 0, err: '' });
    const [pdf, html] = ['report.pdf', 'report.html'].map((name) => readFileSync(join(folder, 'whole', name)));
    expect(pdf!.toString('latin1')).toContain("/CreationDate (D:20260102030405+00'00')");
    const again = await printToPdf(chromium!, html!, { createdAt: CREATED });
    expect(pdf!.equals(again)).toBe(true);
  });
});

const CREATED = new Date('2026-01-02T03:04:05Z');
