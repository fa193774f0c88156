/** `npm run mutants`: do the tests notice when the code is wrong? Prints what became of a sample of mutants. */
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { parse } from 'yaml';
import { packageRoot } from '../../src/platform/package-root.js';
import { draw, type Mutant } from './instrument.js';
import { tryAll } from './try.js';

const SOURCES = ['src/find', 'src/rules'];
const TESTS = ['tests/find', 'tests/rules'];
/** One test of these takes more than a mutant may, so none is tried by them: what they alone would notice counts as survived. */
const TOO_DEAR = /\/(random-.*|unknown-never-passes|lost-evidence)\.test\.ts$/;
const { values, positionals } = parseArgs({
  allowPositionals: true, // files or folders of tests
  options: {
    seed: { type: 'string', default: '1' },
    sample: { type: 'string', default: '300' },
    budget: { type: 'string', default: '10' }, // processor time for one mutant in all, s
    at: { type: 'string' }, // a folder of sources, one source, or a line of it: src/find/gaps.ts:12
  },
});
process.chdir(packageRoot);

interface Answer extends Pick<Mutant, 'file' | 'code' | 'replacement'> {
  readonly why: string;
}
const answers = parse(readFileSync('tests/mutants/equivalent.yaml', 'utf8')) as Answer[];
const answer = (mutant: Mutant) =>
  answers.find((one) => (['file', 'code', 'replacement'] as const).every((key) => one[key] === mutant[key]));

const [at, line] = values.at?.split(':') ?? [];
const under = (folder: string) => readdirSync(folder).map((file) => `${folder}/${file}`);
const tests = (positionals.length > 0 ? positionals : TESTS).flatMap((path) =>
  path.endsWith('.test.ts') ? [path] : under(path).filter((file) => file.endsWith('.test.ts') && !TOO_DEAR.test(file)),
);
const drawn = await draw(
  (at ? [at] : SOURCES).flatMap((path) => (path.endsWith('.ts') ? path : under(path))),
  {
    ...{ seed: Number(values.seed), sample: Number(values.sample), line: line ? Number(line) : undefined },
  },
);
const { fates, failed } = tryAll(drawn, tests, 1000 * Number(values.budget));

const is = (fate: string) => drawn.mutants.filter(({ id }) => fates.get(id) === fate);
const lives = drawn.mutants.filter(({ id }) => !['killed', 'timeout'].includes(fates.get(id)!));
const equal = lives.filter(answer);
const print = (text: string) => process.stdout.write(`${text}\n`);
for (const mutant of lives) {
  const { file, line, column, kind, code, replacement, id } = mutant;
  print(`${file}:${line}:${column} ${kind}, ${answer(mutant) ? 'equivalent' : fates.get(id)}`);
  print(`  - ${code.replaceAll('\n', '\n    ')}\n  + ${replacement.replaceAll('\n', '\n    ')}`);
}
for (const { test, error } of failed) print(`fails as the code is: ${test}: ${error}`);
const [killed, timeouts] = [is('killed').length, is('timeout').length];
const counted = drawn.mutants.length - equal.length;
print(
  `seed ${values.seed}: ${drawn.mutants.length} of ${drawn.all} mutants tried in ${new Set(drawn.mutants.map(({ file }) => file)).size} files`,
);
print(`killed ${killed}, timeouts ${timeouts}, survived ${lives.length}:`);
print(`  no test runs it ${is('notRun').length}, equivalent ${equal.length} (tests/mutants/equivalent.yaml)`);
print(`score ${((100 * (killed + timeouts)) / counted).toFixed(1)} % (equivalent ones left out)`);
process.exitCode = failed.length > 0 ? 1 : 0;
