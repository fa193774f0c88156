/**
 * Texts of models, rules and people never become more than text: a building that has every hostile text in every place,
 * reviewed, written in every form, and each output read by a reader by others. The same building with harmless texts shows
 * what elements, attributes, keys and files there are when nothing is wrong.
 *
 * Every fifth text here; all of them by `npm run hostile`.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { printToPdf } from '../../src/platform/chromium.js';
import { chromium } from '../chromium.js';
import { type Written, writeAll } from './outputs.js';
import {
  type Looked,
  readBcfFile,
  readCsv,
  readGlb,
  readHtml,
  readJson,
  readMarkdown,
  readPdf,
  readPrinted,
  readStep,
  readXlsxFile,
  readXmlText,
  readYaml,
} from './readers.js';
import { HARMLESS, HOSTILE, type HostileText } from './strings.js';

const isWhole = process.env.RATEDRUN_HOSTILE === 'all';
const sample = (_: HostileText, i: number): boolean => isWhole || i % 5 === 0;
const texts = HOSTILE.filter(sample);

const READERS: Readonly<Record<string, (bytes: Uint8Array) => Looked>> = {
  'report.json': readJson,
  'register.xlsx': readXlsxFile,
  'register.csv': readCsv,
  'findings.bcf 3.0': readBcfFile,
  'findings.bcf 2.1': readBcfFile,
  'report.html': readHtml,
  'install-cards.html': readHtml,
  'inspection-plan.html': readHtml,
  'rules.html': readHtml,
  'rules.md': readMarkdown,
  'portfolio.html': readHtml,
  'portfolio.json': readJson,
  'opening-requests.ifc': readStep,
  'geometry.glb': readGlb,
  'facts.json': readJson,
  'findings.junit.xml': readXmlText,
  'readiness.json': readJson,
  'comparison.json': readJson,
};
const PRINTED = [
  'check, summary',
  'check, progress',
  'check, progress without a terminal',
  'compare --out',
  'readiness',
  'concession',
];

let hostile: Written;
let harmless: Written;
beforeAll(async () => {
  hostile = await writeAll(texts, '<b>=1+1</b>"\'&amp;');
  harmless = await writeAll(HARMLESS.slice(0, 3), 'B');
}, 1_800_000);

const look = (written: Written, output: string): Looked => {
  const read = READERS[output];
  if (read) return read(written.files[output]!);
  return output === 'concession' ? readYaml(written.printed[output]!) : readPrinted(written.printed[output]!);
};

const expectHarmless = (seen: Looked, plain: Looked): void => {
  expect(plain.wrong).toEqual([]);
  expect(seen.wrong).toEqual([]);
  expect([...seen.made].filter((one) => !plain.made.has(one))).toEqual([]);
};

/** What arrived where: by output, the marks that it says. */
const arrived = new Map<string, ReadonlySet<string>>();

describe.each([...Object.keys(READERS), ...PRINTED])('%s', (output) => {
  it('says what it was given, makes nothing of it, and has nothing wrong with it', () => {
    const [seen, plain] = [look(hostile, output), look(harmless, output)];
    expectHarmless(seen, plain);
    const marks = new Set([...seen.said.matchAll(/h\d\d[a-zA-Z]{3,12}/g)].map(([mark]) => mark));
    arrived.set(output, marks);
    // Of a name with half a surrogate pair the STEP parser makes nothing, so it can't arrive from models.
    const missing = texts.filter(
      ({ isMarked, number, at }) =>
        isMarked && !/\p{Surrogate}/u.test(at('')) && ![...marks].some((m) => m.startsWith(`h${number}`)),
    );
    expect(missing.map(({ number, kind }) => `${number} ${kind}`)).toEqual([]);
  });
});

it.skipIf(chromium === undefined)(
  'report.html as Chromium prints it has nothing that runs or leads elsewhere',
  async () => {
    const printed = ({ files }: Written) =>
      printToPdf(chromium!, files['report.html']!, { createdAt: new Date('2026-01-02T03:04:05Z') });
    const seen = await readPdf(await printed(hostile));
    expectHarmless(seen, await readPdf(await printed(harmless)));
    expect(seen.said).toMatch(/h\d\d[a-zA-Z]{3,12}/);
  },
  600_000,
);

it('prints how many were tried', () => {
  const pairs = [...arrived].reduce((sum, [, marks]) => sum + marks.size, 0);
  const places = new Set([...arrived.values()].flatMap((marks) => [...marks].map((mark) => mark.slice(3))));
  process.stdout.write(
    `Hostile texts: ${texts.length} of ${HOSTILE.length}, in ${places.size} places, seen in ${arrived.size} outputs: ` +
      `${pairs} arrivals of text, place and output; 0 became more than text.\n`,
  );
  expect(arrived.size).toBe(Object.keys(READERS).length + PRINTED.length);
  expect({}.constructor).toBe(Object);
  expect(Object.keys(Object.prototype)).toEqual([]);
});
