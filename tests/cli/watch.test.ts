import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
const FIXED = { SOURCE_DATE_EPOCH: '1767225600' };
const RULES = join(folder, 'rules', 'common-practice.yaml');
const rules = readFileSync('rules/common-practice.yaml', 'utf8');

/** What the program prints, waited for line by line. */
class Watching {
  readonly ended: Promise<number | null>;
  private text = '';
  private readonly process: ChildProcess;
  private wake: () => void = () => {};

  constructor(...args: string[]) {
    this.process = spawn(process.execPath, [resolve('dist/src/cli/main.js'), 'check', ...args, '--watch', '--quiet'], {
      cwd: folder,
      env: { ...process.env, ...FIXED },
    });
    for (const stream of [this.process.stdout!, this.process.stderr!])
      stream.on('data', (data) => {
        this.text += data;
        this.wake();
      });
    this.ended = new Promise((done) => this.process.on('exit', done));
    void this.ended.then(() => this.wake());
  }

  /** The next line that has this in it; what came before is not looked at again. */
  async line(pattern: RegExp): Promise<string> {
    for (;;) {
      const lines = this.text.split('\n').slice(0, -1);
      const found = lines.findIndex((line) => pattern.test(line));
      if (found >= 0) {
        this.text = this.text
          .split('\n')
          .slice(found + 1)
          .join('\n');
        return lines[found]!;
      }
      if (this.process.exitCode !== null) throw new Error(`ended without ${pattern}: ${this.text}`);
      await new Promise<void>((go) => {
        this.wake = go;
      });
    }
  }

  stop(): Promise<number | null> {
    this.process.kill('SIGINT');
    return this.ended;
  }

  kill(): void {
    this.process.kill('SIGKILL');
  }
}

function writeModel(name: string, width: number): void {
  const b = new ModelBuilder({ fileName: name });
  b.opening(b.wall(WALL), { ...OPENING, centre: [3000, 0, 2000], width, height: width - 200 });
  b.duct(DUCT);
  writeFileSync(join(folder, `${name}~`), b.toString());
  renameSync(join(folder, `${name}~`), join(folder, name));
}

const ANSWER = /\(answered in \d+ ms\)$/;
let watching: Watching;
beforeEach(() => {
  mkdirSync(join(folder, 'rules'), { recursive: true });
  cpSync('rules', join(folder, 'rules'), { recursive: true });
  writeModel('a.ifc', 660);
});
afterEach(() => watching.kill());

describe('check --watch', () => {
  it('answers to every change with what became of it, and writes what checking would', {
    timeout: 240_000,
  }, async () => {
    watching = new Watching('a.ifc', '--rules', 'rules', '--out', 'out', '--write', 'json');
    expect(await watching.line(ANSWER)).toMatch(/^a\.ifc: failed \d+, can't tell \d+, passed \d+ \(answered/);
    await watching.line(/out[\\/]report\.json/);

    // Gaps of 30 are no longer allowed.
    writeFileSync(RULES, rules.replace('atMost: 50', 'atMost: 20'));
    const line = await watching.line(ANSWER);
    expect(line).toMatch(/^rules[\\/]common-practice\.yaml: failed (\d+) → (\d+), can't tell/);
    expect(line).toMatch(/; gap-within-range: failed 0 → 4, can't tell 4 → 0 \(/);
    await watching.line(/out[\\/]report\.json/);
    const written = readFileSync(join(folder, 'out', 'report.json'), 'utf8');
    const checked = ['check', 'a.ifc', '--rules', 'rules', '--write', 'json', '--quiet'];
    expect(ratedrun(folder, [...checked, '--out', 'plain'], FIXED).code).toBe(1);
    expect(written).toBe(readFileSync(join(folder, 'plain', 'report.json'), 'utf8'));

    writeFileSync(RULES, rules.replace('atMost: 50', 'atMost: fifty'));
    expect(await watching.line(/common-practice\.yaml:\d+:\d+/)).toMatch(/^ratedrun: rules[\\/]common-practice\.yaml:/);
    writeFileSync(`${RULES}~`, rules);
    renameSync(`${RULES}~`, RULES);
    expect(await watching.line(ANSWER)).toMatch(/; gap-within-range: failed 4 → 0, can't tell 0 → 4 \(/);

    // Gaps of 120.
    writeModel('a.ifc', 840);
    expect(await watching.line(ANSWER)).toMatch(/^a\.ifc: .*; gap-within-range: failed 0 → 4, can't tell 4 → 0/);
    expect(await watching.stop()).toBe(1);
  });

  it('ends with the code of its last answer, 2 where there was none', { timeout: 240_000 }, async () => {
    writeFileSync(RULES, rules.replace('kind: check-set', 'kind: chek-set'));
    watching = new Watching('a.ifc', '--rules', 'rules', '--out', 'none', '--nonzero-for', 'nothing', '--json');
    await watching.line(/^ratedrun: .*no kind of rule document "chek-set"/);
    expect(existsSync(join(folder, 'none', 'report.json'))).toBe(false);
    writeFileSync(RULES, rules);
    const answer = JSON.parse(await watching.line(/^\{/));
    expect(answer).toMatchObject({ changed: [join('rules', 'common-practice.yaml')], before: null, checks: [] });
    expect(answer.outcomes.cantTell).toBeGreaterThan(0);
    expect(await watching.stop()).toBe(0);

    writeFileSync(RULES, rules.replace('kind: check-set', 'kind: chek-set'));
    watching = new Watching('a.ifc', '--rules', 'rules', '--out', 'none');
    await watching.line(/^ratedrun: /);
    expect(await watching.stop()).toBe(2);
  });

  it('prints no PDF', async () => {
    watching = new Watching('a.ifc', '--write', 'pdf');
    await watching.line(/^ratedrun: --watch prints no PDF/);
    expect(await watching.ended).toBe(2);
  });
});
