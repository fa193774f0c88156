/** Does one job of a portfolio: makes the review and writes its folder, with the result that says what it was made of. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ChromiumError } from '../../platform/chromium.js';
import { packageVersion } from '../../platform/package-root.js';
import {
  type JobAnswer,
  type JobProgress,
  type JobResult,
  jobResultSchema,
  type PortfolioJob,
  RESULT_FILE,
} from '../../portfolio/job.js';
import { InputError } from '../../read/container.js';
import { RuleDocumentError } from '../../rules/index.js';
import { jsonText } from '../../words/json-text.js';
import { readInput, readOutputs, readRuleTexts, UsageError, writeOutputs } from '../io.js';
import { outputsOfReview, type ReviewPaths } from '../make-review.js';
import { REPORT_FILE } from '../read-report.js';

/** Never rejects: a fault is an answer too, and says whether trying again can help. */
export async function runJob(job: PortfolioJob, onProgress: (progress: JobProgress) => void): Promise<JobAnswer> {
  const start = performance.now();
  try {
    const fingerprint = await fingerprintOf(job);
    const before = await resultIn(job.folder);
    if (before?.fingerprint === fingerprint) return { result: before, wasDone: true };
    const options = optionsOf(job);
    const made = await outputsOfReview(job.models, options, (stage, share) => onProgress({ stage, share }));
    const { report, files, outdated } = made;
    const result: JobResult = {
      ...{ name: job.name, fingerprint, createdAt: report.createdAt, demonstration: report.demonstration },
      penetrations: report.summary.penetrations,
      outcomes: report.summary.outcomes,
      seconds: Math.round(performance.now() - start) / 1000,
      peak: Math.round(process.resourceUsage().maxRSS / 1024),
    };
    const said = new TextEncoder().encode(jsonText(result, 2));
    // In one set: what the result says is true of the outputs beside it, whatever was stopped.
    await writeOutputs(job.folder, { ...files, [RESULT_FILE]: said }, { outdated });
    return { result, wasDone: false };
  } catch (error) {
    if (error instanceof RuleDocumentError)
      return { fault: `${error.file}:${error.line}:${error.column} ${error.message}`, isFinal: true };
    const isFinal = error instanceof UsageError || error instanceof InputError || error instanceof ChromiumError;
    return { fault: error instanceof Error ? error.message : String(error), isFinal };
  }
}

function optionsOf({ folder, projectBrief, rules, previous, revision, write }: PortfolioJob): ReviewPaths {
  return {
    ...{ out: folder, write },
    ...(projectBrief !== null && { projectBrief }),
    ...(rules !== null && { rules }),
    ...(previous !== null && { previous }),
    ...(revision !== null && { revision }),
  };
}

/** Everything that the outputs follow from: program, job, and the bytes of all that it names. @throws UsageError */
async function fingerprintOf(job: PortfolioJob): Promise<string> {
  const hash = createHash('sha256');
  const { folder: _, ...asked } = job;
  hash.update(`ratedrun ${packageVersion}\n${JSON.stringify(asked)}\n${process.env.SOURCE_DATE_EPOCH ?? ''}\n`);
  const brief = job.projectBrief === null ? [] : [job.projectBrief];
  for (const path of [...job.models, ...brief]) hash.update(await readInput(path)).update('\n');
  if (job.previous !== null) {
    const path = join(job.previous, REPORT_FILE);
    hash.update(await readOutputs(job.previous, [REPORT_FILE], () => readInput(path))).update('\n');
  }
  for (const { text } of job.rules === null ? [] : await readRuleTexts(job.rules)) hash.update(text).update('\n');
  return hash.digest('hex');
}

/** Of a job that was done before; undefined where none is, or it is damaged: then it is done again. */
async function resultIn(folder: string): Promise<JobResult | undefined> {
  const read = () => readFile(join(folder, RESULT_FILE), 'utf8').catch(() => undefined);
  const text = await readOutputs(folder, [RESULT_FILE], read);
  if (text === undefined) return undefined;
  try {
    return jobResultSchema.parse(JSON.parse(text));
  } catch {
    return undefined;
  }
}
