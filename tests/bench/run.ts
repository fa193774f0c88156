/** `npm run bench`: prints a table of times, for comparing by eye on one machine. Never a test: machines differ. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Bench } from 'tinybench';
import { packageRoot } from '../../src/platform/package-root.js';
import { loadBrief, loadRules } from '../../src/rules/index.js';
import { choiceBench } from './choice.js';
import { cuttingTimes } from './cutting.js';
import { demoStages, processorTime } from './demo.js';
import { portfolioTimes } from './portfolio.js';
import { viewerTimes } from './viewer.js';

const text = (...path: string[]) => ({ file: path.join('/'), text: readFileSync(join(packageRoot, ...path), 'utf8') });
const names = readdirSync(join(packageRoot, 'rules')).filter((name) => name.endsWith('.yaml'));
const texts = () => names.map((name) => text('rules', name));
const rules = loadRules(texts());

const lines: string[][] = [['what', 'processor time', 'peak memory']];
// First, since the peak is that of the whole process.
for (const { name, milliseconds, peak } of await demoStages(
  rules,
  loadBrief(text('fixtures', 'demo', 'brief.yaml'), rules),
))
  lines.push([name, `${milliseconds.toFixed(0)} ms`, `${peak.toFixed(0)} MB`]);

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

for (const { name, milliseconds } of await cuttingTimes(processorTime))
  lines.push([name, `${milliseconds.toFixed(0)} ms`, '']);

const viewer = await viewerTimes();
if (viewer) {
  const { firstPicture, check, longestTask, empty, full } = viewer;
  lines.push(['viewer: first picture of the demo, wall clock', `${firstPicture.toFixed(0)} ms`, '']);
  lines.push(['viewer: check the demo in the page', `${check.toFixed(0)} ms`, '']);
  lines.push(['viewer: the longest task of the page meanwhile', `${longestTask.toFixed(0)} ms`, '']);
  lines.push([`viewer: batches of ${full.elements} elements`, `${full.built.toFixed(0)} ms`, '']);
  for (const view of ['front', 'free', 'whole'] as const) {
    const times = (full[view] / empty[view]).toFixed(0);
    lines.push([`viewer: a frame of them, ${view}`, `${full[view].toFixed(1)} ms`, `${times} × empty`]);
  }
} else lines.push(['viewer: there is no Chromium', '', '']);

const portfolio = await portfolioTimes();
if (portfolio) {
  const { oneWorker, twoWorkers, queueCost } = portfolio;
  lines.push(['40 jobs by one worker, wall clock', `${oneWorker.toFixed(0)} ms`, '']);
  lines.push(['40 jobs by two workers', `${twoWorkers.toFixed(0)} ms`, '']);
  lines.push(['speed-up of two workers', `${(oneWorker / twoWorkers).toFixed(2)} times`, '']);
  lines.push(['the queue, for each job', `${queueCost.toFixed(1)} ms`, '']);
} else lines.push(['portfolio: there is no redis-server', '', '']);

const widths = lines[0]!.map((_, i) => Math.max(...lines.map((line) => line[i]!.length)));
for (const line of lines)
  process.stdout.write(
    `${line.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  ')}\n`,
  );
