/** What the numbers of a review hang on beside its input: this program as it is installed, its packages, and Node. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { compareTexts, once } from '../collect.js';
import { packageRoot, packageVersion } from './package-root.js';

/** Of our own code its bytes: while it is worked on, its version stays. 2.2 MB take 25 ms. */
export const programVersions = once((): string =>
  [`ratedrun ${packageVersion} ${ownCode()}`, ...packages(), `node ${process.version} ${process.arch}`].join('\n'),
);

function ownCode(): string {
  const source = dirname(dirname(fileURLToPath(import.meta.url)));
  const paths = readdirSync(source, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /(?<!\.d)\.[jt]s$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort(compareTexts);
  const hash = createHash('sha256');
  for (const path of paths) hash.update(readFileSync(path)).update('\0');
  return hash.digest('hex');
}

const packages = (): string[] => {
  const { dependencies } = versionsIn(packageRoot);
  return Object.keys(dependencies ?? {}).map((name) => `${name} ${versionsIn(folderOf(name)).version}`);
};

interface Versions {
  readonly version: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

const versionsIn = (folder: string): Versions =>
  JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Versions;

/** Where packages stand: in ours, or beside it. */
function folderOf(name: string, from: string = packageRoot): string {
  const folder = join(from, 'node_modules', name);
  if (existsSync(folder)) return folder;
  const parent = dirname(from);
  if (parent === from) throw new Error(`the program is not installed whole: the package ${name} is missing`);
  return folderOf(name, parent);
}
