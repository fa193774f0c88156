/** `ratedrun portfolio`: reviews all federations and revisions of a list, here or by workers at a queue. */
import { dirname, join, resolve } from 'node:path';
import { loadFonts } from '../../platform/fonts.js';
import { packageVersion } from '../../platform/package-root.js';
import { STOP_SIGNALS } from '../../platform/signals.js';
import type { Dispatcher, JobEnd, JobProgress, PortfolioJob } from '../../portfolio/job.js';
import { type ListedJob, type PortfolioList, readPortfolioList } from '../../portfolio/list.js';
import { type Portfolio, portfolioOf } from '../../portfolio/summary.js';
import { totalsWords, writePortfolioPage } from '../../portfolio/write-page.js';
import { CAUTIONS } from '../../report/build-report.js';
import { CAUTION_IN_BRIEF } from '../../report/words.js';
import { jsonText } from '../../words/json-text.js';
import { oneLine } from '../../words/text.js';
import { readDocument, standingIn, UsageError, writeOutputs } from '../io.js';
import { createdAt } from '../make-review.js';
import { outputWords } from '../outputs.js';
import type { Streams } from '../streams.js';
import { localDispatcher } from './job-pool.js';
import { queueDispatcher } from './job-queue.js';

export interface PortfolioOptions {
  readonly out: string;
  readonly redis?: string;
  /** Of this machine; with `redis` the workers say themselves. */
  readonly threads?: number;
  readonly nonzeroFor?: 'failed' | 'cantTell' | 'nothing';
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** In bytes: four for each of the characters that a list may have. */
const LARGEST_LIST = 64_000_000;

export async function portfolio(path: string, options: PortfolioOptions, io: Streams): Promise<number> {
  const list = readPortfolioList(path, new TextDecoder().decode(await readDocument(path, LARGEST_LIST)));
  outputWords(list.write);
  const { redis, threads, out, quiet } = options;
  const jobs = jobsOf(list, resolve(standingIn(), dirname(path)), resolve(standingIn(), out));
  const dispatcher = redis === undefined ? localDispatcher(threads) : await queueDispatcher(redis, list.id);
  const say = quiet ? () => {} : (line: string) => void io.err.write(`${line}\n`);
  const ends = await allDone(dispatcher, jobs, say);
  const made = portfolioOf({
    id: list.id,
    tool: `ratedrun ${packageVersion}`,
    createdAt: createdAt(),
    cautions: CAUTIONS,
    ends,
  });
  const json = new TextEncoder().encode(jsonText(made, 2));
  const page = writePortfolioPage(made, await loadFonts());
  const written = await writeOutputs(out, { 'portfolio.json': json, 'portfolio.html': page });
  io.out.write(
    options.json
      ? json
      : `${totalsWords(made)}\n\nWritten\n${written.map((file) => `  ${file}\n`).join('')}\n${CAUTION_IN_BRIEF}\n`,
  );
  for (const end of ends) if ('fault' in end) io.err.write(`ratedrun: ${end.job.name}: ${oneLine(end.fault)}\n`);
  return codeOf(made, options.nonzeroFor);
}

function jobsOf(list: PortfolioList, from: string, out: string): PortfolioJob[] {
  const at = (path: string): string => resolve(from, path);
  const folder = (name: string): string => join(out, name);
  return list.jobs.map(({ name, project, revision, models, projectBrief, rules, previous }: ListedJob) => ({
    ...{ name, project: project ?? name, revision: revision ?? null, models: models.map(at) },
    projectBrief: projectBrief === undefined ? null : at(projectBrief),
    rules: rules?.map(at) ?? null,
    previous: previous === undefined ? null : folder(previous),
    ...{ write: list.write, folder: folder(name) },
  }));
}

/** All at once but for those that wait for the revision before; in the order of the list. A stop gives up what has not begun. */
async function allDone(
  dispatcher: Dispatcher,
  jobs: readonly PortfolioJob[],
  say: (line: string) => void,
): Promise<JobEnd[]> {
  const ends = new Map<string, Promise<JobEnd>>();
  const folders = new Map(jobs.map(({ folder, name }) => [folder, name]));
  let done = 0;
  const run = async (job: PortfolioJob): Promise<JobEnd> => {
    const before = job.previous === null ? undefined : await ends.get(folders.get(job.previous)!);
    if (before && 'fault' in before)
      return { job, attempts: 0, fault: `the revision before it, ${before.job.name}, was not reviewed` };
    let stage = '';
    const end = await dispatcher.run(job, (progress: JobProgress) => {
      if (progress.stage !== stage) say(`${job.name}: ${progress.stage}`);
      stage = progress.stage;
    });
    done++;
    say(
      `${done} of ${jobs.length}: ${job.name} ${'fault' in end ? 'is dead' : end.wasDone ? 'was done before' : 'is done'}`,
    );
    return end;
  };
  const stop = stopped();
  try {
    for (const job of jobs) ends.set(job.name, run(job));
    return await Promise.race([Promise.all(ends.values()), stop.wanted]);
  } finally {
    stop.forget();
    await dispatcher.close();
    // What was given up rejects or never ends; nobody waits for it any more.
    for (const end of ends.values()) end.catch(() => {});
  }
}

/** Rejects when the person wants it to end. */
function stopped() {
  let hear = (): void => {};
  const wanted = new Promise<never>((_, reject) => {
    hear = () => reject(new UsageError('it was stopped; run it again to go on with what is not done yet.'));
  });
  wanted.catch(() => {}); // also where all was done before
  for (const signal of STOP_SIGNALS) process.once(signal, hear);
  return {
    wanted,
    forget: () => {
      for (const signal of STOP_SIGNALS) process.off(signal, hear);
    },
  };
}

/** As of a review, over all that was done; a job that is dead is a review that could not be made. */
function codeOf(
  { totals: { dead, failed, cantTell } }: Portfolio,
  nonzeroFor: PortfolioOptions['nonzeroFor'] = 'cantTell',
) {
  if (dead > 0) return 2;
  if (failed > 0 && nonzeroFor !== 'nothing') return 1;
  return failed === 0 && cantTell > 0 && nonzeroFor === 'cantTell' ? 3 : 0;
}
