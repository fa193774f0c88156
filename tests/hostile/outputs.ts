/** Everything that the program writes of one building, as bytes by name. */
import { Writable } from 'node:stream';
import { type Streams, streamsOf } from '../../src/cli/streams.js';
import { compareReports } from '../../src/compare/compare-reports.js';
import { comparisonMarkup } from '../../src/compare/comparison-markup.js';
import { writeComparison } from '../../src/compare/write-comparison.js';
import { loadFonts } from '../../src/platform/fonts.js';
import type { JobEnd, PortfolioJob } from '../../src/portfolio/job.js';
import { portfolioOf } from '../../src/portfolio/summary.js';
import { writePortfolioPage } from '../../src/portfolio/write-page.js';
import type { FileReader } from '../../src/read/file-reader.js';
import { readHere } from '../../src/read/read-here.js';
import { type BcfFile, readBcf } from '../../src/report/bcf/archive.js';
import { topicsIn } from '../../src/report/bcf/finding-topics.js';
import { IN_SIGHT, placesOf } from '../../src/report/bcf/look.js';
import { writeBcf } from '../../src/report/bcf/write-bcf.js';
import { CAUTIONS } from '../../src/report/build-report.js';
import { writeInstallCards } from '../../src/report/cards/write-install-cards.js';
import { newConcession } from '../../src/report/concession-words.js';
import { writeHtml } from '../../src/report/html.js';
import { writeInspectionPlan } from '../../src/report/inspection/write-inspection-plan.js';
import { writeJson } from '../../src/report/json.js';
import { writeJunit } from '../../src/report/junit.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { buildReadiness, writeReadiness } from '../../src/report/readiness.js';
import { writeRegister } from '../../src/report/register.js';
import { writeRegisterCsv } from '../../src/report/register-csv.js';
import type { Report } from '../../src/report/schema.js';
import { writeSheetHtml } from '../../src/report/sheet-html.js';
import { writeSheetMarkdown } from '../../src/report/sheet-markdown.js';
import { writeSummary } from '../../src/report/summary.js';
import { writeGeometry } from '../../src/report/write-geometry.js';
import { writeOpeningRequests } from '../../src/report/write-opening-requests.js';
import { factsOf, writeFacts } from '../../src/review/facts-file.js';
import { type Review, review } from '../../src/review/review.js';
import { constructionRows, sheetOf } from '../../src/rules/index.js';
import { sceneOf } from '../../src/scene/scene.js';
import { storeyPlans } from '../../src/scene/storey-plans.js';
import { jsonText } from '../../src/words/json-text.js';
import { shippedTexts } from '../shipped-rules.js';
import { briefWith, HOSTILE_RULES, type HostileRules, rulesWith } from './documents.js';
import { modelOf } from './models.js';
import type { HostileText } from './strings.js';

export interface Written {
  readonly report: Report;
  readonly files: Readonly<Record<string, Uint8Array>>;
  /** What a terminal shows, by command. */
  readonly printed: Readonly<Record<string, string>>;
}

const CREATED = { createdAt: '2026-01-02T03:04:05Z', toolVersion: '0.1.0' };

/** Reviewed twice: for the keys that concessions and comments go by, and with all that was said of them here and in BCF. */
export async function writeAll(texts: readonly HostileText[], revision: string): Promise<Written> {
  const { rules, texts: documents } = rulesWith(texts);
  const models = texts.map(modelOf);
  const stages: string[] = [];
  const common = { models, reader: readOnce(), rules, constructions: constructionRows(rules), revision, ...CREATED };
  const first = await review({ ...common, brief: briefWith(texts, rules) });
  const brief = briefWith(texts, rules, first.report);
  const sentBack = readBcf(
    writeBcf(commented(first.report, texts), { scene: sceneOf(first.federation, [], 0), per: 'penetration' }),
  );
  const made = await review(
    { ...common, brief, topicOf: topicsIn(sentBack) },
    { onProgress: (stage) => void stages.push(stage) },
  );
  const given = { ...made, rules: documents, shipped: shippedTexts, brief };
  const files = { ...(await filesOf(made, given, sentBack, texts)), ...(await sheetsOf(rulesWith(texts))) };
  return { report: made.report, files, printed: printedOf(made, stages, texts) };
}

/** Both reviews read the same; opening hundreds of files twice takes longer than all the rest. */
function readOnce(): FileReader {
  const read = new Map<string, ReturnType<FileReader>>();
  return async (input, model, guidance) => {
    const known = read.get(input.name) ?? readHere(input, model, guidance);
    read.set(input.name, known);
    return structuredClone(await known);
  };
}

/** As others would send it back: with a comment on every topic. */
const commented = (report: Report, texts: readonly HostileText[]): Report => ({
  ...report,
  findings: report.findings.map((finding, i) => {
    const text = texts[i % texts.length]!;
    const said = { date: '2026-01-01', author: text.at('bcfAuthor'), text: text.at('bcfComment') };
    return { ...finding, comments: finding.outcome === 'failed' ? [said] : [] };
  }),
});

type Given = Parameters<typeof factsOf>[0];

async function filesOf(
  made: Review,
  given: Given,
  sentBack: BcfFile,
  texts: readonly HostileText[],
): Promise<Record<string, Uint8Array>> {
  const { report, federation, results, whole } = made;
  const fonts = await loadFonts();
  const plans = storeyPlans(federation, report);
  const openings = openingRequests(report, results);
  const changes = comparisonMarkup(compareReports(without(report), report));
  const scene = sceneOf(federation, placesOf(report).slice(0, 4), IN_SIGHT);
  const bcf = { scene, per: 'penetration' } as const;
  const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
  return {
    'report.json': writeJson(report),
    'register.xlsx': await writeRegister(report),
    'register.csv': writeRegisterCsv(report),
    'findings.bcf 3.0': writeBcf(report, { ...bcf, previous: sentBack }),
    'findings.bcf 2.1': writeBcf(report, { ...bcf, version: '2.1' }),
    'report.html': writeHtml(report, { fonts, openings, plans, revision: report.revision, changes }),
    'install-cards.html': writeInstallCards(report, fonts),
    'inspection-plan.html': writeInspectionPlan(report, { fonts, plans }),
    'portfolio.html': writePortfolioPage(portfolioWith(texts), fonts),
    'portfolio.json': encode(jsonText(portfolioWith(texts), 2)),
    'opening-requests.ifc': writeOpeningRequests(openings, report, 'IFC4'),
    'geometry.glb': writeGeometry(federation, report),
    'facts.json': writeFacts(factsOf(given)),
    'findings.junit.xml': writeJunit(whole()),
    'readiness.json': encode(jsonText(buildReadiness(federation), 2)),
    'comparison.json': encode(jsonText(compareReports(without(report), report), 2)),
  };
}

/** Of the documents with hostile texts alone. */
async function sheetsOf({ rules, texts }: HostileRules): Promise<Record<string, Uint8Array>> {
  const sheets = texts
    .filter(({ file }) => file === HOSTILE_RULES)
    .map((document) => ({
      sheet: sheetOf(
        document,
        rules.published,
        rules.checks.filter(({ file }) => file === document.file),
      ),
      sha256: '0'.repeat(64),
    }));
  return {
    'rules.html': writeSheetHtml(sheets, await loadFonts()),
    'rules.md': new TextEncoder().encode(writeSheetMarkdown(sheets)),
  };
}

/** As a list of jobs may have them: names of jobs are checked by the list, what projects are called is not. */
function portfolioWith(texts: readonly HostileText[]) {
  const jobOf = (text: HostileText): PortfolioJob => ({
    ...{ name: `job-${text.number}`, project: text.at('jobProject'), revision: text.at('jobRevision').slice(0, 20) },
    ...{ models: [], projectBrief: null, rules: null, previous: null, write: 'json', folder: '/out' },
  });
  const ends: JobEnd[] = texts.map((text) => ({ job: jobOf(text), attempts: 1, fault: text.at('fault') }));
  return portfolioOf({ id: 'hostile', tool: 'ratedrun 0.1.0', createdAt: CREATED.createdAt, cautions: CAUTIONS, ends });
}

/** More than a summary shows of one report at a time. */
const SHOWN = 10;

/** As it comes out of the streams that commands write to. */
function printedOf(made: Review, stages: readonly string[], texts: readonly HostileText[]) {
  const { report, federation } = made;
  const failed = report.findings.filter(({ outcome }) => outcome === 'failed');
  const parts = failed.flatMap((_, i) => (i % SHOWN === 0 ? [failed.slice(i, i + SHOWN)] : []));
  const written = texts.map((text) => text.at('outFolder'));
  const summaries = parts.map((findings) => writeSummary({ ...report, findings }, { files: written }));
  return {
    'check, summary': shown(summaries, ({ out }, text) => out.write(text)),
    'check, progress': shown(stages, ({ err }, stage) => err.redraw?.(stage)),
    'check, progress without a terminal': shown(stages, ({ err }, stage) => err.write(`${stage}\n`)),
    'compare --out': writeComparison(compareReports(without(report), report)),
    readiness: shown([writeReadiness(buildReadiness(federation))], ({ out }, text) => out.write(text)),
    concession: shown(['concessions:\n', ...failed.map(newConcession)], ({ out }, text) => out.write(text)),
  };
}

/** What a terminal is sent, less the sequence by which the progress bar itself draws over its line. */
function shown(texts: readonly string[], say: (io: Streams, text: string) => void): string {
  const said: string[] = [];
  const write = (part: Buffer, _: string, done: () => void): void => {
    said.push(part.toString());
    done();
  };
  const stream = Object.assign(new Writable({ write }), { isTTY: true });
  for (const text of texts) say(streamsOf({ out: stream, err: stream }), text);
  return said.join('').replaceAll('\r\u001b[K', '\n');
}

/** A report of nothing, against which everything is new. */
const without = (report: Report): Report => ({ ...report, penetrations: [], findings: [], issuedTags: [] });
