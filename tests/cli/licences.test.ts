/**
 * What the program is put together from, by the lock file: every package that is installed with it or bundled into the viewer,
 * with a licence that goes with MIT, named in NOTICE; none of them needs to run anything to be installed.
 * Names of licences: SPDX licence list. Which go together: each licence's own conditions; the files keep theirs (MPL-2.0, 3.3;
 * OFL-1.1, preamble), notices are passed on (Apache-2.0, 4).
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

interface Locked {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly hasInstallScript?: boolean;
}
interface Package {
  readonly name: string;
  readonly locked: Locked;
}

const { packages: lock } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  packages: Record<string, Locked>;
};
const packages: readonly Package[] = Object.entries(lock)
  .filter(([path]) => path !== '')
  .map(([path, locked]) => ({ name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length), locked }));
const installed = packages.filter(({ locked }) => locked.dev !== true);
const notice = readFileSync('NOTICE', 'utf8');

/** Whoever adds one reads it first, and says here and in NOTICE why it may stand beside MIT. */
const COMPATIBLE: readonly string[] = [
  'MIT',
  'ISC',
  '0BSD',
  'BSD-3-Clause',
  'BSL-1.0',
  'Apache-2.0',
  'MPL-2.0',
  'OFL-1.1',
];

it('every package that is installed with the program has a licence that goes with its own', () => {
  expect(installed.length).toBeGreaterThan(40);
  const foreign = installed.filter(({ locked }) => !COMPATIBLE.includes(locked.license ?? ''));
  expect(foreign.map(({ name, locked }) => `${name}: ${locked.license ?? 'no licence'}`)).toEqual([]);
});

it('says the same licence in the package itself, and brings its text', () => {
  const here = installed.filter(({ name }) => existsSync(`node_modules/${name}/package.json`));
  for (const { name, locked } of here) {
    const own = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8')) as {
      license?: string;
      version: string;
    };
    if (own.version === locked.version) expect([name, own.license]).toEqual([name, locked.license]);
  }
  expect(here.length).toBeGreaterThan(30);
});

it('NOTICE names each of them, and nothing that is not there', () => {
  const named = new Map(installed.map(({ name, locked }) => [familyOf(name), locked.license!]));
  const missing = [...named].filter(([name]) => !mentions(name));
  expect(missing).toEqual([]);
  // The lines of the table: a name, at least two blanks, a licence.
  const known = new Set(packages.map(({ name }) => familyOf(name)));
  const listed = [...notice.matchAll(/^(@?[a-z][\w./*-]*)(?: {2,}\S|\n {20,})/gm)].map(([, name]) => name!);
  expect(listed.length).toBeGreaterThan(20);
  expect(listed.filter((name) => !known.has(name))).toEqual([]);
});

it('NOTICE names what is bundled into the viewer, and licences.txt brings the licences', () => {
  const licences = readFileSync('dist/viewer/licences.txt', 'utf8');
  const bundled = [...licences.matchAll(/^(\S+) \d\S* \(([\w.-]+)\)\n-{72}$/gm)].map(([, name, licence]) => ({
    ...{ name: name!, licence: licence! },
  }));
  expect(bundled.length).toBeGreaterThan(15);
  expect(bundled.filter(({ licence }) => !COMPATIBLE.includes(licence))).toEqual([]);
  expect(bundled.filter(({ name }) => !mentions(name))).toEqual([]);
  // Letters and compiled solvers stand in it as files; nothing of a sort that nobody knows does.
  const kinds = new Set(
    readdirSync('dist/viewer', { recursive: true, encoding: 'utf8' }).flatMap(
      (file) => /\.(\w+)$/.exec(file)?.[1] ?? [],
    ),
  );
  expect([...kinds].sort()).toEqual(['css', 'html', 'js', 'svg', 'ts', 'txt', 'wasm', 'woff2']);
});

it('nothing has to run to install it: what has a script works without', () => {
  const running = packages.filter(({ locked }) => locked.hasInstallScript);
  // Builds a faster decoder where it can; the queue's packing does without it (its package is optional).
  expect(running.map(({ name, locked }) => [name, locked.optional])).toEqual([['msgpackr-extract', true]]);
});

/** Builds of one package for machines of all kinds are named once. */
function familyOf(name: string): string {
  if (name.startsWith('@msgpackr-extract/')) return '@msgpackr-extract/*';
  return /^@napi-rs\/nice-/.test(name) ? '@napi-rs/nice-*' : name;
}

const words = new Set(notice.split(/[\s,;]+/));
const mentions = (name: string): boolean => words.has(name);
