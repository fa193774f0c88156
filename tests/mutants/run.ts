/** `npm run mutants`: do the tests notice when the code is wrong? Prints what became of a sample of mutants. */
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { parse } from 'yaml';
import { packageRoot } from '../../src/platform/package-root.js';
import { draw, type Mutant } from './instrument.js';
import { type Fate, tryAll } from './try.js';

const SOURCES = ['src/find', 'src/rules'];
const TESTS = ['tests/find', 'tests/rules', 'tests/strategy', 'tests/demo', 'tests/approved'];
/** One test of these takes minutes, so no mutant is tried by them: what they alone would notice counts as survived. */
const TOO_DEAR = /\/mutations.*\.test\.ts$/;
const { values, positionals } = parseArgs({
  allowPositionals: true, // files or folders of tests
  options: {
    seed: { type: 'string', default: '1' },
    sample: { type: 'string', default: '300' },
    budget: { type: 'string', default: '10' }, // processor time for one mutant in all, s
    static: { type: 'boolean', default: false }, // also those that only loading runs, each in a run of its own: 10 s and more
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
const { fates, failed } = tryAll(drawn, tests, { budget: 1000 * Number(values.budget), loading: values.static });

const fate = ({ id }: Mutant): Fate => fates.get(id) ?? 'notRun';
const count = (...among: Fate[]) => drawn.mutants.filter((mutant) => among.includes(fate(mutant))).length;
const lives = drawn.mutants.filter((mutant) => ['survived', 'tooDear', 'notRun'].includes(fate(mutant)));
const equivalent = lives.filter(answer).length;
const print = (text: string) => process.stdout.write(`${text}\n`);
for (const mutant of lives) {
  const { file, line, column, kind, code, replacement } = mutant;
  print(`${file}:${line}:${column} ${kind}, ${answer(mutant) ? 'equivalent' : fate(mutant)}`);
  print(`  - ${code.replaceAll('\n', '\n    ')}\n  + ${replacement.replaceAll('\n', '\n    ')}`);
}
for (const { test, error } of failed) print(`fails as the code is: ${test}: ${error}`);
const tried = drawn.mutants.length - count('loading');
const dead = count('killed', 'timeout');
const files = new Set(drawn.mutants.map(({ file }) => file)).size;
print(`seed ${values.seed}: ${drawn.mutants.length} of ${drawn.all} mutants drawn, in ${files} files`);
print(`only loading runs ${count('loading')} (tried with --static), tried ${tried}`);
print(`killed ${count('killed')}, timeouts ${count('timeout')}, survived ${lives.length}`);
print(
  `of those that survived no test runs ${count('notRun')}, the budget did not reach all tests of ${count('tooDear')},`,
);
print(`equivalent are ${equivalent}`);
print(`score ${((100 * dead) / (tried - equivalent)).toFixed(1)} %, without equivalent ones`);
process.exitCode = failed.length > 0 ? 1 : 0;
