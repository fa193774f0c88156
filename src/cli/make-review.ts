/** One review from paths to written files, as `check` and the jobs of a portfolio make it. */
import { availableParallelism } from 'node:os';
import { join, resolve } from 'node:path';
import { once } from '../collect.js';
import { findChromium } from '../platform/chromium.js';
import { foundStore, STORE_FOLDER } from '../platform/found-store.js';
import { packageVersion } from '../platform/package-root.js';
import { PlanPool } from '../platform/plan-pool.js';
import { workerReader } from '../platform/worker-reader.js';
import type { ModelInput } from '../read/file-reader.js';
import { type BcfFile, readBcf } from '../report/bcf/archive.js';
import { topicsIn } from '../report/bcf/finding-topics.js';
import { BcfError } from '../report/bcf/topic.js';
import { openingRequests } from '../report/opening-requests.js';
import type { Report } from '../report/schema.js';
import type { ReadBrief } from '../review/documents.js';
import { factsOf } from '../review/facts-file.js';
import { type Found, type FoundStore, findAll } from '../review/found.js';
import { findingUnder, type JudgingOptions, reviewFound } from '../review/review.js';
import { assumeChoices, parseAssumption } from '../rules/index.js';
import { storeyPlans } from '../scene/storey-plans.js';
import { oneLine } from '../words/text.js';
import { type ReviewDocuments, readBrief, reviewDocuments } from './documents.js';
import { readInput, readModels, requireModels, standingIn, UsageError, writeOutputs } from './io.js';
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
  /** Whether what is read and found is kept beside the outputs for the next time; left out: it is not. */
  readonly cache?: boolean;
}

/** Tells how far it is. @param share 0 to 1 of this stage */
export type OnProgress = (stage: string, share: number) => void;

export interface ReviewOutputs {
  readonly report: Report;
  /** Bytes by file name. */
  readonly files: Readonly<Record<string, Uint8Array>>;
  /** Files that an earlier review may have left, and this one has no content for. */
  readonly outdated: readonly string[];
}

export interface MadeReview extends ReviewOutputs {
  /** Paths of what was written. */
  readonly written: readonly string[];
}

/** @throws UsageError, InputError, RuleDocumentError, AssumptionError, ChromiumError: one line for the person */
export async function makeReview(
  models: readonly string[],
  options: ReviewPaths,
  onProgress: OnProgress,
): Promise<MadeReview> {
  const plans = new PlanPool();
  try {
    const made = await outputsOfReview(models, options, onProgress, { planner: plans.plan });
    return { ...made, written: await writeOutputs(options.out, made.files, made) };
  } finally {
    await plans.close();
  }
}

/** Documents and brief, as the options name them. */
export interface Guidance {
  readonly documents: ReviewDocuments;
  readonly brief: ReadBrief | undefined;
}

/** @throws UsageError, RuleDocumentError */
export async function readGuidance({ rules, projectBrief }: ReviewPaths): Promise<Guidance> {
  const documents = await reviewDocuments(rules);
  const brief = projectBrief === undefined ? undefined : await readBrief(projectBrief, documents.rules);
  return { documents, brief };
}

export interface Given extends Pick<JudgingOptions, 'planner'> {
  /** As `findInModels` gave it under the same documents and brief; left out: the models are read. */
  readonly found?: Found;
}

/** The same, with nothing written but what is kept for the next time. */
export async function outputsOfReview(
  models: readonly string[],
  options: ReviewPaths,
  onProgress: OnProgress,
  { found, planner }: Given = {},
): Promise<ReviewOutputs> {
  const words = outputWords(options.write);
  const chromium = words.includes('pdf') ? findChromium() : undefined;
  const revision = revisionOf(options.revision);
  if (!found) await requireModels(models);
  const guidance = await readGuidance(options);
  const { documents, brief } = guidance;
  const { rules } = documents;
  const assumptions = (options.assume ?? []).map(parseAssumption);
  // What can't be assumed is said before anything is read.
  if (assumptions.length > 0) assumeChoices(brief?.brief, assumptions, rules);
  const previous = options.previous === undefined ? undefined : await readReportIn(options.previous);
  const sentBack = await previousBcf(options);
  const made = await reviewFound(
    found ?? (await findInModels(models, guidance, options, { onProgress })),
    {
      ...{ rules, brief, previous, assumptions, revision },
      allFindings: options.allFindings ?? false,
      topicOf: sentBack && topicsIn(sentBack),
      createdAt: createdAt(),
      toolVersion: packageVersion,
    },
    { onProgress, planner },
  );
  const { report, whole, federation, results } = made;
  onProgress('Writing', 0);
  const openings = once(() => openingRequests(report, results));
  const plans = once(() => storeyPlans(federation, report));
  const facts = () => factsOf({ ...made, rules: documents.given, shipped: documents.shipped, brief });
  const reviewed = { report, whole, openings, plans, facts, federation, previous, chromium, sentBack, options };
  const pages = once(() => pagesOf(reviewed));
  return { report, ...(await outputsOf(words, { ...reviewed, pages }, options.write !== undefined)) };
}

/** @throws UsageError, InputError */
export async function findInModels(
  paths: readonly string[],
  { documents: { rules, constructions }, brief }: Guidance,
  options: Pick<ReviewPaths, 'cache' | 'out'>,
  { onProgress, signal }: { readonly onProgress: OnProgress; readonly signal?: AbortSignal },
): Promise<Found> {
  const models = await readModels(paths);
  return findAll(
    {
      ...{ models, constructions, reader: workerReader(signal), atOnce: availableParallelism() },
      ...findingUnder({ rules, brief }),
      store: storeFor(models, options, onProgress),
    },
    { onProgress, signal },
  );
}

/** Models of fewer bytes together are read and searched again in less time than anybody waits for. */
const WORTH_KEEPING = 2 ** 18;

function storeFor(
  models: readonly ModelInput[],
  { cache, out }: Pick<ReviewPaths, 'cache' | 'out'>,
  onProgress: OnProgress,
): FoundStore | undefined {
  if (cache !== true || models.reduce((sum, { bytes }) => sum + bytes.length, 0) < WORTH_KEEPING) return undefined;
  const folder = join(out, STORE_FOLDER);
  return foundStore(resolve(standingIn(), folder), {
    onProblem: (problem) => onProgress(`Nothing is kept for the next time: ${folder} ${problem}`, 0),
  });
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
