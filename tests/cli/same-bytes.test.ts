/** Same in, same out: every output of the demo building, byte by byte, however the program was asked for it. */
import { copyFileSync, cpSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join, relative, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeDemo } from '../../fixtures/write-demo.js';
import { type Ran, ratedrun, temporaryFolder } from './program.js';

const root = temporaryFolder();
const RULES = join(root, 'rules');
const BRIEF = join(root, 'brief.yaml');
/** What checking again takes from the time before. */
const KEPT = '.ratedrun-cache';
/** All but report.pdf: printing the demo takes 20 s, and `pdf.test.ts` compares one that is small. */
const WRITE = 'json,xlsx,bcf,html,ifc,glb,facts,csv,cards,itp,junit';
const FILES = [
  ...['facts.json', 'findings.bcf', 'findings.junit.xml', 'geometry.glb', 'inspection-plan.html', 'install-cards.html'],
  ...['opening-requests.ifc', 'register.csv', 'register.xlsx', 'report.html', 'report.json'],
];

/** A way to ask for the same review; whatever may differ and must not matter is added here. */
interface Way {
  /** Where the person stands. */
  readonly from: string;
  /** How they name a file. */
  readonly named: (path: string) => string;
  /** In what order they name files. */
  readonly inOrder: <T>(list: readonly T[]) => readonly T[];
  readonly env: Readonly<Record<string, string>>;
  readonly options?: readonly string[];
}

const elsewhere = join(root, 'somewhere', 'else');
const WAYS: Readonly<Record<'plain' | 'kept' | 'otherwise', Way>> = {
  plain: {
    ...{ from: root, named: (path) => relative(root, path), inOrder: (list) => list },
    env: { LC_ALL: 'C', TZ: 'UTC' },
  },
  /** From what the first of them kept. */
  kept: { from: root, named: (path) => relative(root, path), inOrder: (list) => list.toReversed(), env: {} },
  otherwise: {
    ...{ from: elsewhere, named: (path) => resolve(path), inOrder: (list) => list.toReversed() },
    // Where "i" has other capitals, decimals a comma, and it is tomorrow.
    env: { LC_ALL: 'tr_TR.UTF-8', LANG: 'de_DE.UTF-8', TZ: 'Pacific/Kiritimati' },
    options: ['--no-cache'],
  },
};

function review(out: string, { from, named, inOrder, env, options = [] }: Way, models: readonly string[]): Ran {
  const rules = readdirSync(RULES).map((name) => join(RULES, name));
  const args = ['--project-brief', named(BRIEF), '--rules', ...inOrder(rules).map(named), '--write', WRITE, '--quiet'];
  return ratedrun(
    from,
    ['check', ...inOrder(models).map(named), '--out', named(join(root, out)), ...args, ...options],
    {
      SOURCE_DATE_EPOCH: '1767225600',
      ...env,
    },
  );
}

describe('the demo building', () => {
  const ran = new Map<string, Ran>();
  beforeAll(() => {
    for (const folder of [RULES, elsewhere]) mkdirSync(folder, { recursive: true });
    for (const name of readdirSync('rules').filter((one) => one.endsWith('.yaml')))
      copyFileSync(join('rules', name), join(RULES, name));
    copyFileSync('fixtures/demo/brief.yaml', BRIEF);
    const models = writeDemo(join(root, 'models'));
    for (const [name, way] of Object.entries(WAYS)) {
      if (name === 'kept') cpSync(join(root, 'plain', KEPT), join(root, name, KEPT), { recursive: true });
      ran.set(name, review(name, way, models));
    }
  }, 900_000);

  it('was reviewed each time, and all outputs are there', () => {
    for (const [name, { code, err }] of ran) {
      expect([name, code, err]).toEqual([name, 1, '']);
      const kept = name === 'otherwise' ? [] : [KEPT];
      expect(readdirSync(join(root, name)).sort()).toEqual([...kept, ...FILES]);
    }
    const report = JSON.parse(readFileSync(join(root, 'plain', 'report.json'), 'utf8'));
    expect(report.createdAt).toBe('2026-01-01T00:00:00Z');
    expect(report.penetrations.length).toBeGreaterThan(10);
  });

  it.each(FILES)('%s is the same', (file) => {
    const [plain, ...others] = Object.keys(WAYS).map((name) => readFileSync(join(root, name, file)));
    for (const other of others) expect(firstDifference(plain!, other)).toBeNull();
  });

  it('no output names a folder of this machine', () => {
    for (const file of FILES)
      expect(readFileSync(join(root, 'plain', file)).includes(basename(root)), file).toBe(false);
  });
});

/** Null: none; else the bytes around it, since nobody reads whole files beside each other. */
function firstDifference(one: Buffer, other: Buffer): string | null {
  if (one.equals(other)) return null;
  let at = 0;
  while (one[at] === other[at]) at++;
  const around = (bytes: Buffer): string => bytes.subarray(Math.max(0, at - 60), at + 60).toString('latin1');
  return `at ${at} of ${one.length} and ${other.length}: ${around(one)} | ${around(other)}`;
}
