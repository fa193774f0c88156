/** `ratedrun check`: reads, finds, judges, writes, prints. */
import { carryKeys } from '../compare/carry-keys.js';
import { findPenetrations } from '../find/find-penetrations.js';
import type { Federation } from '../model.js';
import { packageVersion } from '../platform/package-root.js';
import { workerReader } from '../platform/worker-reader.js';
import { readFederation } from '../read/read-federation.js';
import { type BcfFile, readBcf } from '../report/bcf/archive.js';
import { topicsIn } from '../report/bcf/finding-topics.js';
import { IN_SIGHT, placesOf } from '../report/bcf/look.js';
import { BcfError, type BcfVersion } from '../report/bcf/topic.js';
import { writeBcf } from '../report/bcf/write-bcf.js';
import { buildReport } from '../report/build-report.js';
import { writeJson } from '../report/json.js';
import { writeJunit } from '../report/junit.js';
import { writeRegister } from '../report/register.js';
import { writeRegisterCsv } from '../report/register-csv.js';
import type { Report } from '../report/schema.js';
import { writeSummary } from '../report/summary.js';
import { judgeWithResults, largestSeparation } from '../rules/index.js';
import { sceneOf } from '../scene/scene.js';
import { oneLine } from '../words/text.js';
import { constructionsUnder, readBrief, rulesFrom } from './documents.js';
import { readInput, readModels, UsageError, writeOutputs } from './io.js';
import { startProgress } from './progress.js';
import { readReportIn } from './read-report.js';
import type { Streams } from './streams.js';

export interface CheckOptions {
  readonly projectBrief?: string;
  readonly rules?: readonly string[];
  readonly out: string;
  readonly write?: string;
  readonly previous?: string;
  readonly revision?: string;
  readonly nonzeroFor?: 'failed' | 'cantTell' | 'nothing';
  readonly allFindings?: boolean;
  readonly bcf?: BcfVersion;
  readonly bcfTopics?: 'finding' | 'penetration';
  readonly previousBcf?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** What outputs are written from. */
interface Reviewed {
  readonly report: Report;
  /** The same report with all findings listed: a pipeline has to see what passed too. */
  readonly whole: () => Report;
  readonly federation: Federation;
  readonly options: CheckOptions;
  readonly sentBack: BcfFile | undefined;
}

interface Output {
  readonly file: string;
  /** Only where `--write` names it. */
  readonly onRequest?: true;
  readonly write: (reviewed: Reviewed) => Uint8Array | Promise<Uint8Array>;
}

/** Every output, by the word that `--write` chooses it with. */
const OUTPUTS = {
  json: { file: 'report.json', write: ({ report }) => writeJson(report) },
  xlsx: { file: 'register.xlsx', write: ({ report }) => writeRegister(report) },
  bcf: { file: 'findings.bcf', write: writeTopics },
  csv: { file: 'register.csv', onRequest: true, write: ({ report }) => writeRegisterCsv(report) },
  junit: { file: 'findings.junit.xml', onRequest: true, write: ({ whole }) => writeJunit(whole()) },
} as const satisfies Record<string, Output>;
type OutputWord = keyof typeof OUTPUTS;

export async function check(models: readonly string[], options: CheckOptions, io: Streams): Promise<number> {
  const words = outputWords(options.write);
  const revision = revisionOf(options.revision);
  const progress = startProgress(io.err, options.quiet ?? false);
  try {
    const rules = await rulesFrom(options.rules);
    const given = options.projectBrief === undefined ? undefined : await readBrief(options.projectBrief, rules);
    const facts = given?.brief.facts;
    const previous = options.previous === undefined ? undefined : await readReportIn(options.previous);
    const inputs = await readModels(models);
    const sentBack = await previousBcf(options);
    progress.report(`Reading ${inputs.map((i) => i.name).join(', ')}`, 0);
    const federation = await readFederation(inputs, {
      reader: workerReader(),
      facts,
      constructions: await constructionsUnder(rules),
      onProgress: (file, done, of) => progress.report(`Read ${file}`, done / of),
    });
    const found = findPenetrations(federation, {
      separation: largestSeparation(rules),
      facts,
      onProgress: (share) => progress.report('Finding and measuring penetrations', share),
    });
    const crossings = previous ? carryKeys(found, previous) : found;
    progress.report('Judging', 0);
    const { judgement, results } = judgeWithResults(crossings, rules, {
      brief: given?.brief,
      models: federation.models,
      allFindings: options.allFindings ?? false,
    });
    const input = {
      models: federation.models,
      ...{ crossings, judgement, results, revision, previous },
      brief: given?.info,
      topicOf: sentBack && topicsIn(sentBack),
      createdAt: createdAt(),
      toolVersion: packageVersion,
    };
    const report = buildReport(input);
    const whole = () => buildReport({ ...input, judgement: { ...judgement, findings: results } });
    progress.report('Writing', 0);
    const files: Record<string, Uint8Array> = {};
    for (const word of words)
      files[OUTPUTS[word].file] = await OUTPUTS[word].write({ report, whole, federation, options, sentBack });
    const written = await writeOutputs(options.out, files);
    progress.end();
    io.out.write(options.json ? files[OUTPUTS.json.file]! : writeSummary(report, { files: written }));
    return exitCode(report, options.nonzeroFor);
  } finally {
    progress.end();
  }
}

/** @throws UsageError */
async function previousBcf({ previousBcf: path, bcf }: CheckOptions): Promise<BcfFile | undefined> {
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

function writeTopics({ report, federation, options, sentBack }: Reviewed): Uint8Array {
  const scene = sceneOf(federation, placesOf(report), IN_SIGHT);
  return writeBcf(report, { scene, previous: sentBack, version: options.bcf, per: options.bcfTopics });
}

function outputWords(write: string | undefined): OutputWord[] {
  const all = Object.keys(OUTPUTS) as OutputWord[];
  if (write === undefined) return all.filter((word) => !('onRequest' in OUTPUTS[word]));
  const asked = write.split(',').map((word) => word.trim());
  const unknown = asked.find((word) => !(word in OUTPUTS));
  if (unknown !== undefined)
    throw new UsageError(`--write ${unknown} is not an output; choose from ${all.join(', ')}.`);
  return all.filter((word) => word === 'json' || asked.includes(word));
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
function createdAt(): string {
  const epoch = process.env.SOURCE_DATE_EPOCH;
  const date = epoch === undefined ? new Date() : new Date(Number(epoch) * 1000);
  if (Number.isNaN(date.getTime()))
    throw new UsageError(`SOURCE_DATE_EPOCH is "${epoch}"; give whole seconds since 1970.`);
  return date.toISOString().replace(/\.\d{3}Z$/, 'Z');
}

export function exitCode(report: Report, nonzeroFor: CheckOptions['nonzeroFor'] = 'cantTell'): number {
  const { failed, cantTell } = report.summary.outcomes;
  if (failed > 0 && nonzeroFor !== 'nothing') return 1;
  return failed === 0 && cantTell > 0 && nonzeroFor === 'cantTell' ? 3 : 0;
}
