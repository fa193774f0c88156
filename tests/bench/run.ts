/** `npm run bench`: prints a table of times, for comparing by eye on one machine. Never a test: machines differ. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Bench } from 'tinybench';
import { packageRoot } from '../../src/platform/package-root.js';
import { loadBrief, loadRules } from '../../src/rules/index.js';
import { choiceBench } from './choice.js';
import { demoStages } from './demo.js';

const text = (...path: string[]) => ({ file: path.join('/'), text: readFileSync(join(packageRoot, ...path), 'utf8') });
const names = readdirSync(join(packageRoot, 'rules')).filter((name) => name.endsWith('.yaml'));
const texts = () => names.map((name) => text('rules', name));
const rules = loadRules(texts());

const lines: string[][] = [['what', 'time', 'peak memory']];
// First, since the peak is that of the whole process.
for (const { name, milliseconds, peak } of await demoStages(
  rules,
  loadBrief(text('fixtures', 'demo', 'brief.yaml'), rules),
))
  lines.push([name, `${milliseconds.toFixed(0)} ms`, `${peak.toFixed(0)} MB`]);

const { of, program, plain } = choiceBench(rules);
const bench = new Bench({ time: 2000, warmupTime: 500 })
  .add(`load the shipped rules (${names.length} documents)`, () => loadRules(texts()))
  .add(`choose for ${of}`, program)
  .add('the same as a plain loop', plain);
const medians = (await bench.run()).map(({ name, result }) => {
  if (result.state !== 'completed') throw new Error(`The bench "${name}" did not end: ${result.state}.`);
  lines.push([name, `${result.latency.p50.toFixed(result.latency.p50 < 10 ? 2 : 0)} ms`, '']);
  return result.latency.p50;
});
lines.push(['choice against the plain loop', `${(medians[1]! / medians[2]!).toFixed(0)} times`, '']);

const widths = lines[0]!.map((_, i) => Math.max(...lines.map((line) => line[i]!.length)));
for (const line of lines)
  process.stdout.write(
    `${line.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  ')}\n`,
  );
