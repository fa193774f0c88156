/** What `check` writes: every output by the word that `--write` chooses it with. */
import { compareReports } from '../compare/compare-reports.js';
import { comparisonMarkup } from '../compare/comparison-markup.js';
import type { Federation } from '../model.js';
import { printToPdf } from '../platform/chromium.js';
import { loadFonts } from '../platform/fonts.js';
import type { BcfFile } from '../report/bcf/archive.js';
import { IN_SIGHT, placesOf } from '../report/bcf/look.js';
import type { BcfVersion } from '../report/bcf/topic.js';
import { writeBcf } from '../report/bcf/write-bcf.js';
import { writeInstallCards } from '../report/cards/write-install-cards.js';
import { writeHtml } from '../report/html.js';
import { writeInspectionPlan } from '../report/inspection/write-inspection-plan.js';
import { writeJson } from '../report/json.js';
import { writeJunit } from '../report/junit.js';
import type { OpeningRequests } from '../report/opening-requests.js';
import { writeRegister } from '../report/register.js';
import { writeRegisterCsv } from '../report/register-csv.js';
import type { Report } from '../report/schema.js';
import { writeGeometry } from '../report/write-geometry.js';
import { type IfcSchema, writeOpeningRequests } from '../report/write-opening-requests.js';
import { FACTS_FILE, type ReviewFacts, writeFacts } from '../review/facts-file.js';
import { GEOMETRY_FILE } from '../scene/geometry-extras.js';
import { sceneOf } from '../scene/scene.js';
import type { StoreyPlan } from '../scene/storey-plan.js';
import { UsageError } from './io.js';
import { REPORT_FILE } from './read-report.js';

export interface OutputOptions {
  readonly ifcSchema?: IfcSchema;
  readonly bcf?: BcfVersion;
  readonly bcfTopics?: 'finding' | 'penetration';
}

/** What outputs are written from. */
export interface Reviewed {
  readonly report: Report;
  /** The same report with all findings listed: a pipeline has to see what passed too. */
  readonly whole: () => Report;
  /** What the models need openings for. */
  readonly openings: () => OpeningRequests;
  /** What judging again goes by. */
  readonly facts: () => ReviewFacts;
  readonly federation: Federation;
  /** The report that `--previous` names. */
  readonly previous: Report | undefined;
  /** Made once for all papers. */
  readonly plans: () => StoreyPlan[];
  /** report.html, made once for whoever takes it. */
  readonly pages: () => Promise<Uint8Array>;
  /** The program that prints; undefined: no PDF is asked for. */
  readonly chromium: string | undefined;
  /** findings.bcf as it came back. */
  readonly sentBack: BcfFile | undefined;
  readonly options: OutputOptions;
}

interface Output {
  readonly file: string;
  /** Only where `--write` names it. */
  readonly onRequest?: true;
  /** Undefined: there is nothing to write. */
  readonly write: (reviewed: Reviewed, isAsked: boolean) => Uint8Array | undefined | Promise<Uint8Array>;
}

const OUTPUTS = {
  json: { file: REPORT_FILE, write: ({ report }) => writeJson(report) },
  xlsx: { file: 'register.xlsx', write: ({ report }) => writeRegister(report) },
  bcf: { file: 'findings.bcf', write: writeTopics },
  html: { file: 'report.html', write: ({ pages }) => pages() },
  ifc: { file: 'opening-requests.ifc', write: writeRequests },
  glb: { file: GEOMETRY_FILE, write: ({ federation, report }) => writeGeometry(federation, report) },
  facts: { file: FACTS_FILE, write: ({ facts }) => writeFacts(facts()) },
  csv: { file: 'register.csv', onRequest: true, write: ({ report }) => writeRegisterCsv(report) },
  cards: { file: 'install-cards.html', onRequest: true, write: writeCards },
  itp: { file: 'inspection-plan.html', onRequest: true, write: writeItp },
  pdf: { file: 'report.pdf', onRequest: true, write: printPages },
  junit: { file: 'findings.junit.xml', onRequest: true, write: ({ whole }) => writeJunit(whole()) },
} as const satisfies Record<string, Output>;

export type OutputWord = keyof typeof OUTPUTS;

/** @throws UsageError for a word that is no output */
export function outputWords(write: string | undefined): OutputWord[] {
  const all = Object.keys(OUTPUTS) as OutputWord[];
  if (write === undefined) return all.filter((word) => !('onRequest' in OUTPUTS[word]));
  const asked = write.split(',').map((word) => word.trim());
  const unknown = asked.find((word) => !(word in OUTPUTS));
  if (unknown !== undefined)
    throw new UsageError(`--write ${unknown} is not an output; choose from ${all.join(', ')}.`);
  return all.filter((word) => word === 'json' || asked.includes(word));
}

/** Bytes by file name, and the files that an earlier review may have left and this one has no content for. */
export async function outputsOf(
  words: readonly OutputWord[],
  reviewed: Reviewed,
  isAsked: boolean,
): Promise<{ files: Record<string, Uint8Array>; outdated: string[] }> {
  const files: Record<string, Uint8Array> = {};
  const outdated: string[] = [];
  for (const word of words) {
    const { file, write }: Output = OUTPUTS[word];
    const bytes = await write(reviewed, isAsked);
    if (bytes) files[file] = bytes;
    else outdated.push(file);
  }
  return { files, outdated };
}

function writeTopics({ report, federation, options, sentBack }: Reviewed): Uint8Array {
  const scene = sceneOf(federation, placesOf(report), IN_SIGHT);
  return writeBcf(report, { scene, previous: sentBack, version: options.bcf, per: options.bcfTopics });
}

/** report.html. */
export async function pagesOf({ report, openings, plans, previous }: Omit<Reviewed, 'pages'>): Promise<Uint8Array> {
  const changes = previous && comparisonMarkup(compareReports(previous, report));
  return writeHtml(report, {
    ...{ openings: openings(), fonts: await loadFonts(), plans: plans(), revision: report.revision, changes },
  });
}

async function writeItp({ report, plans }: Reviewed): Promise<Uint8Array> {
  return writeInspectionPlan(report, { fonts: await loadFonts(), plans: plans() });
}

async function writeCards({ report }: Reviewed): Promise<Uint8Array> {
  return writeInstallCards(report, await loadFonts());
}

async function printPages({ report, pages, chromium }: Reviewed): Promise<Uint8Array> {
  if (chromium === undefined) throw new Error('nobody looked for Chromium before the review');
  return printToPdf(chromium, await pages(), { createdAt: new Date(report.createdAt) });
}

/** A file without any request says nothing; who asks for it by name gets it all the same. */
function writeRequests({ report, openings, options }: Reviewed, isAsked: boolean): Uint8Array | undefined {
  const asked = openings();
  if (!isAsked && asked.requests.length === 0) return undefined;
  return writeOpeningRequests(asked, report, options.ifcSchema ?? 'IFC4');
}
