/**
 * `npm run bench`: prints tables of times, for comparing by eye on one machine. Never a test: machines differ.
 * `npm run bench -- speed`: that part alone.
 */
import { parseArgs } from 'node:util';
import { cuttingTimes } from './cutting.js';
import { processorTime } from './demo.js';
import { portfolioTimes } from './portfolio.js';
import { rulesLines } from './rules.js';
import { speed } from './speed/speed.js';
import { tableText } from './table.js';
import { viewerTimes } from './viewer.js';

const print = (text: string): void => void process.stdout.write(text);

/** Lines of what, time, and memory or what it is compared with. */
const TABLES: Readonly<Record<string, () => Promise<string[][]>>> = {
  rules: rulesLines,
  cutting: async () =>
    (await cuttingTimes(processorTime)).map(({ name, milliseconds }) => [name, `${milliseconds.toFixed(0)} ms`, '']),
  viewer: viewerLines,
  portfolio: portfolioLines,
};
const SPEED = 'speed';
const PARTS = [SPEED, ...Object.keys(TABLES)];

async function viewerLines(): Promise<string[][]> {
  const viewer = await viewerTimes();
  if (!viewer) return [['viewer: there is no Chromium', '', '']];
  const { firstPicture, check, longestTask, empty, full } = viewer;
  return [
    ['viewer: first picture of the demo, wall clock', `${firstPicture.toFixed(0)} ms`, ''],
    ['viewer: check the demo in the page', `${check.toFixed(0)} ms`, ''],
    ['viewer: the longest task of the page meanwhile', `${longestTask.toFixed(0)} ms`, ''],
    [`viewer: batches of ${full.elements} elements`, `${full.built.toFixed(0)} ms`, ''],
    ...(['front', 'free', 'whole'] as const).map((view) => {
      const times = (full[view] / empty[view]).toFixed(0);
      return [`viewer: a frame of them, ${view}`, `${full[view].toFixed(1)} ms`, `${times} × empty`];
    }),
  ];
}

async function portfolioLines(): Promise<string[][]> {
  const portfolio = await portfolioTimes();
  if (!portfolio) return [['portfolio: there is no redis-server', '', '']];
  const { oneWorker, twoWorkers, queueCost } = portfolio;
  return [
    ['40 jobs by one worker, wall clock', `${oneWorker.toFixed(0)} ms`, ''],
    ['40 jobs by two workers', `${twoWorkers.toFixed(0)} ms`, ''],
    ['speed-up of two workers', `${(oneWorker / twoWorkers).toFixed(2)} times`, ''],
    ['the queue, for each job', `${queueCost.toFixed(1)} ms`, ''],
  ];
}

const USAGE = `npm run bench -- [part ...] [options]
Parts: ${PARTS.join(', ')}; all of them where none is named. Options of ${SPEED}:
  --only NAME     files by how their names begin, e.g. tower-4 (again for more)
  --large         the generated file of 500 MB, too
  --runs N        runs of each program where they are short (3)
  --limit S       seconds after which a run is stopped (3600)
  --json FILE     writes the figures
  --profile DIR   profiles each check and prints its most costly functions
`;

const OPTIONS = {
  only: { type: 'string', multiple: true },
  large: { type: 'boolean' },
  runs: { type: 'string' },
  limit: { type: 'string' },
  json: { type: 'string' },
  profile: { type: 'string' },
} as const;

function misused(): never {
  process.stderr.write(USAGE);
  process.exit(2);
}

function asGiven() {
  try {
    return parseArgs({ allowPositionals: true, options: OPTIONS });
  } catch (error) {
    // What parseArgs throws says only which word is unknown.
    process.stderr.write(`${(error as Error).message}\n`);
    return misused();
  }
}

const { values, positionals } = asGiven();
const [runs, limit] = [values.runs, values.limit].map((text) => (text === undefined ? undefined : Number(text)));
if (positionals.some((part) => !PARTS.includes(part)) || [runs, limit].some((n) => n !== undefined && !(n >= 1))) {
  misused();
}
const asked = (part: string): boolean => positionals.length === 0 || positionals.includes(part);
if (asked(SPEED)) await speed({ ...values, runs, limit }, print);
const lines: string[][] = [];
for (const [part, linesOf] of Object.entries(TABLES)) if (asked(part)) lines.push(...(await linesOf()));
if (lines.length > 0) print(tableText([['what', 'processor time', 'peak memory'], ...lines]));
