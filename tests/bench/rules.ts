/** Loading rules, judging the demo and choosing tested systems. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Bench } from 'tinybench';
import { packageRoot } from '../../src/platform/package-root.js';
import { loadBrief, loadRules } from '../../src/rules/index.js';
import { choiceBench } from './choice.js';
import { demoStages, processorTime } from './demo.js';

const text = (...path: string[]) => ({ file: path.join('/'), text: readFileSync(join(packageRoot, ...path), 'utf8') });

/** Lines of what, processor time, peak memory. */
export async function rulesLines(): Promise<string[][]> {
  const names = readdirSync(join(packageRoot, 'rules')).filter((name) => name.endsWith('.yaml'));
  const texts = () => names.map((name) => text('rules', name));
  const rules = loadRules(texts());
  // First, since the peak is that of the whole process.
  const stages = await demoStages(rules, loadBrief(text('fixtures', 'demo', 'brief.yaml'), rules));
  const lines = stages.map(({ name, milliseconds, peak }) => [
    name,
    `${milliseconds.toFixed(0)} ms`,
    `${peak.toFixed(0)} MB`,
  ]);

  const choice = choiceBench(rules);
  const bench = new Bench({ now: processorTime, time: 0, iterations: 3, warmupTime: 0, warmupIterations: 1 })
    .add(`load the shipped rules (${names.length} documents)`, () => loadRules(texts()))
    .add(`choose for ${choice.of}`, choice.choose)
    .add('say what fits them, and what comes nearest', choice.fit)
    .add(`a plain loop over the ${choice.comparisons} comparisons of the choice`, choice.plain);
  const [, chosen, fitting, plain] = (await bench.run()).map(({ name, result }) => {
    if (result.state !== 'completed') throw new Error(`The bench "${name}" did not end: ${result.state}.`);
    const { p50: median } = result.latency;
    lines.push([name, `${median.toFixed(median < 10 ? 2 : 0)} ms`, '']);
    return median;
  });
  lines.push(['the choice, with what fits and what comes nearest', `${(chosen! + fitting!).toFixed(0)} ms`, '']);
  lines.push(['the choice alone against the plain loop', `${(chosen! / plain!).toFixed(0)} times`, '']);
  return lines;
}
