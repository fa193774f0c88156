/** One review from paths to written files, as `check` and the jobs of a portfolio make it. */
import { once } from '../collect.js';
import { findChromium } from '../platform/chromium.js';
import { packageVersion } from '../platform/package-root.js';
import { workerReader } from '../platform/worker-reader.js';
import { type BcfFile, readBcf } from '../report/bcf/archive.js';
import { topicsIn } from '../report/bcf/finding-topics.js';
import { BcfError } from '../report/bcf/topic.js';
import { openingRequests } from '../report/opening-requests.js';
import type { Report } from '../report/schema.js';
import { factsOf } from '../review/facts-file.js';
import { review } from '../review/review.js';
import { assumeChoices, parseAssumption } from '../rules/index.js';
import { storeyPlans } from '../scene/storey-plans.js';
import { oneLine } from '../words/text.js';
import { readBrief, reviewDocuments } from './documents.js';
import { readInput, readModels, UsageError, writeOutputs } from './io.js';
import { type OutputOptions, outputsOf, outputWords, pagesOf } from './outputs.js';
import { readReportIn } from './read-report.js';

export interface ReviewPaths extends OutputOptions {
  readonly projectBrief?: string;
  readonly rules?: readonly string[];
  readonly assume?: readonly string[];
  readonly out: string;
  readonly write?: string;
  readonly previous?: string;
  readonly revision?: string;
  readonly allFindings?: boolean;
  readonly previousBcf?: string;
}

export interface MadeReview {
  readonly report: Report;
  /** Bytes by file name. */
  readonly files: Readonly<Record<string, Uint8Array>>;
  /** Paths of what was written. */
  readonly written: readonly string[];
}

/**
 * @param onProgress with the share of the stage that is done, 0 to 1
 * @throws UsageError, InputError, RuleDocumentError, AssumptionError, ChromiumError: one line for the person
 */
export async function makeReview(
  models: readonly string[],
  options: ReviewPaths,
  onProgress: (stage: string, share: number) => void,
): Promise<MadeReview> {
  const words = outputWords(options.write);
  const chromium = words.includes('pdf') ? findChromium() : undefined;
  const revision = revisionOf(options.revision);
  const documents = await reviewDocuments(options.rules);
  const { rules, constructions } = documents;
  const brief = options.projectBrief === undefined ? undefined : await readBrief(options.projectBrief, rules);
  const assumptions = (options.assume ?? []).map(parseAssumption);
  // What can't be assumed is said before anything is read.
  if (assumptions.length > 0) assumeChoices(brief?.brief, assumptions, rules);
  const previous = options.previous === undefined ? undefined : await readReportIn(options.previous);
  const inputs = await readModels(models);
  const sentBack = await previousBcf(options);
  const made = await review(
    {
      ...{ models: inputs, reader: workerReader(), rules, constructions, brief, previous, assumptions, revision },
      allFindings: options.allFindings ?? false,
      topicOf: sentBack && topicsIn(sentBack),
      createdAt: createdAt(),
      toolVersion: packageVersion,
    },
    { onProgress },
  );
  const { report, whole, federation, results } = made;
  onProgress('Writing', 0);
  const openings = once(() => openingRequests(report, results));
  const plans = once(() => storeyPlans(federation, report));
  const facts = () => factsOf({ ...made, rules: documents.given, shipped: documents.shipped, brief });
  const reviewed = { report, whole, openings, plans, facts, federation, previous, chromium, sentBack, options };
  const pages = once(() => pagesOf(reviewed));
  const { files, outdated } = await outputsOf(words, { ...reviewed, pages }, options.write !== undefined);
  return { report, files, written: await writeOutputs(options.out, files, { outdated }) };
}

/** @throws UsageError */
async function previousBcf({ previousBcf: path, bcf }: ReviewPaths): Promise<BcfFile | undefined> {
  if (path === undefined) return undefined;
  try {
    const file = readBcf(await readInput(path));
    if (bcf === undefined || bcf === file.version) return file;
    throw new BcfError(
      `is BCF ${file.version}; what is in it can only be kept in that version: leave out --bcf ${bcf}`,
    );
  } catch (error) {
    throw error instanceof BcfError ? new UsageError(`${path} ${error.message}`) : error;
  }
}

/** It stands beside every tag, so it has to fit on a label. */
const LONGEST_REVISION = 20;

function revisionOf(text: string | undefined): string | undefined {
  const revision = text === undefined ? undefined : oneLine(text);
  if (revision === '' || (revision?.length ?? 0) > LONGEST_REVISION)
    throw new UsageError(`--revision takes 1 to ${LONGEST_REVISION} characters, as they stand on the drawings.`);
  return revision;
}

/** SOURCE_DATE_EPOCH (seconds) fixes the time, so that the same input gives the same bytes. */
export function createdAt(): string {
  const epoch = process.env.SOURCE_DATE_EPOCH;
  const date = epoch === undefined ? new Date() : new Date(Number(epoch) * 1000);
  if (Number.isNaN(date.getTime()))
    throw new UsageError(`SOURCE_DATE_EPOCH is "${epoch}"; give whole seconds since 1970.`);
  return date.toISOString().replace(/\.\d{3}Z$/, 'Z');
}
