/** `ratedrun check`: reads, finds, judges, writes, prints. */
import { findPenetrations } from '../find/find-penetrations.js';
import type { Federation } from '../model.js';
import { loadFonts } from '../platform/fonts.js';
import { packageVersion } from '../platform/package-root.js';
import { workerReader } from '../platform/worker-reader.js';
import { readFederation } from '../read/read-federation.js';
import { type BcfFile, readBcf } from '../report/bcf/archive.js';
import { topicsIn } from '../report/bcf/finding-topics.js';
import { IN_SIGHT, placesOf } from '../report/bcf/look.js';
import { BcfError, type BcfVersion } from '../report/bcf/topic.js';
import { writeBcf } from '../report/bcf/write-bcf.js';
import { buildReport } from '../report/build-report.js';
import { writeHtml } from '../report/html.js';
import { writeJson } from '../report/json.js';
import { type OpeningRequests, openingRequests } from '../report/opening-requests.js';
import { writeRegister } from '../report/register.js';
import type { Report } from '../report/schema.js';
import { writeSummary } from '../report/summary.js';
import { type IfcSchema, writeOpeningRequests } from '../report/write-opening-requests.js';
import { judgeWithResults, largestSeparation } from '../rules/index.js';
import { sceneOf } from '../scene/scene.js';
import { constructionsUnder, readBrief, rulesFrom } from './documents.js';
import { readInput, readModels, UsageError, writeOutputs } from './io.js';
import { startProgress } from './progress.js';
import type { Streams } from './streams.js';

export interface CheckOptions {
  readonly projectBrief?: string;
  readonly rules?: readonly string[];
  readonly out: string;
  readonly write?: string;
  readonly ifcSchema?: IfcSchema;
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
  readonly federation: Federation;
  readonly options: CheckOptions;
  readonly previous: BcfFile | undefined;
  readonly openings: OpeningRequests;
}

interface Output {
  readonly file: string;
  readonly write: (reviewed: Reviewed) => Uint8Array | Promise<Uint8Array>;
  /** Where the outputs are chosen by nobody: whether there is anything to write. Always, when left out. */
  readonly hasContent?: (reviewed: Reviewed) => boolean;
}

/** Every output, by the word that `--write` chooses it with. */
const OUTPUTS = {
  json: { file: 'report.json', write: ({ report }) => writeJson(report) },
  xlsx: { file: 'register.xlsx', write: ({ report }) => writeRegister(report) },
  bcf: { file: 'findings.bcf', write: writeTopics },
  html: {
    file: 'report.html',
    write: async ({ report, openings }) => writeHtml(report, { openings, fonts: await loadFonts() }),
  },
  ifc: {
    file: 'opening-requests.ifc',
    write: ({ report, openings, options }) => writeOpeningRequests(openings, report, options.ifcSchema ?? 'IFC4'),
    hasContent: ({ openings }) => openings.requests.length > 0,
  },
} as const satisfies Readonly<Record<string, Output>>;
type OutputWord = keyof typeof OUTPUTS;

export async function check(models: readonly string[], options: CheckOptions, io: Streams): Promise<number> {
  const words = outputWords(options.write);
  const progress = startProgress(io.err, options.quiet ?? false);
  try {
    const rules = await rulesFrom(options.rules);
    const given = options.projectBrief === undefined ? undefined : await readBrief(options.projectBrief, rules);
    const facts = given?.brief.facts;
    const inputs = await readModels(models);
    const previous = await previousBcf(options);
    progress.report(`Reading ${inputs.map((i) => i.name).join(', ')}`, 0);
    const federation = await readFederation(inputs, {
      reader: workerReader(),
      facts,
      constructions: await constructionsUnder(rules),
      onProgress: (file, done, of) => progress.report(`Read ${file}`, done / of),
    });
    const crossings = findPenetrations(federation, {
      separation: largestSeparation(rules),
      facts,
      onProgress: (share) => progress.report('Finding and measuring penetrations', share),
    });
    progress.report('Judging', 0);
    const { judgement, results } = judgeWithResults(crossings, rules, {
      brief: given?.brief,
      models: federation.models,
      allFindings: options.allFindings ?? false,
    });
    const report = buildReport({
      models: federation.models,
      crossings,
      judgement,
      results,
      brief: given?.info,
      topicOf: previous && topicsIn(previous),
      createdAt: createdAt(),
      toolVersion: packageVersion,
    });
    progress.report('Writing', 0);
    const reviewed = { report, federation, options, previous, openings: openingRequests(report, results) };
    const files: Record<string, Uint8Array> = {};
    const outdated: string[] = [];
    for (const word of words) {
      const { file, write, hasContent }: Output = OUTPUTS[word];
      if (options.write === undefined && hasContent?.(reviewed) === false) outdated.push(file);
      else files[file] = await write(reviewed);
    }
    const written = await writeOutputs(options.out, files, { outdated });
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

function writeTopics({ report, federation, options, previous }: Reviewed): Uint8Array {
  const scene = sceneOf(federation, placesOf(report), IN_SIGHT);
  return writeBcf(report, { scene, previous, version: options.bcf, per: options.bcfTopics });
}

function outputWords(write: string | undefined): OutputWord[] {
  const all = Object.keys(OUTPUTS) as OutputWord[];
  if (write === undefined) return all;
  const asked = write.split(',').map((word) => word.trim());
  const unknown = asked.find((word) => !(word in OUTPUTS));
  if (unknown !== undefined)
    throw new UsageError(`--write ${unknown} is not an output; choose from ${all.join(', ')}.`);
  return all.filter((word) => word === 'json' || asked.includes(word));
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
