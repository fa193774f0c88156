/** report.html as Chromium prints it and pdf.js, a PDF reader by others, reads it. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { printToPdf } from '../../src/platform/chromium.js';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeHtml } from '../../src/report/html.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import type { Report } from '../../src/report/schema.js';
import type { StoreyPlan } from '../../src/scene/storey-plan.js';
import { chromium } from '../chromium.js';
import { rating } from '../model-factories.js';
import { demoPlans } from './demo-report.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, onPenetration } from './factories.js';

interface Text {
  readonly text: string;
  readonly font: string;
  /** Points from the lower left corner of the page. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  /** Of the font, points. */
  readonly size: number;
}

interface Page {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly Text[];
  /** Destinations of links within the document. */
  readonly links: number;
}

interface Pdf {
  readonly pages: readonly Page[];
  /** Name of each font, and whether its file is in the PDF. */
  readonly fonts: ReadonlyMap<string, boolean>;
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

async function readPdf(bytes: Uint8Array): Promise<Pdf> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const pages: Page[] = [];
  const fonts = new Map<string, boolean>();
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const [, , width, height] = page.view as [number, number, number, number];
    await page.getOperatorList(); // loads the fonts
    const { items } = await page.getTextContent();
    const texts = items.flatMap((item): Text[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const font: unknown = page.commonObjs.get(item.fontName);
      if (!isRecord(font)) throw new Error(`no font ${item.fontName}`);
      const name = String(font.name);
      fonts.set(name, font.missingFile === false);
      const [, , , size, x, y] = item.transform as number[];
      return [{ text: item.str, font: name, x: x!, y: y!, width: item.width, size: size! }];
    });
    const links = (await page.getAnnotations()).filter(
      (one: unknown) => isRecord(one) && one.subtype === 'Link',
    ).length;
    pages.push({ width, height, texts, links });
  }
  await document.destroy();
  return { pages, fonts };
}

async function print(report: Report, plans: readonly StoreyPlan[] = []): Promise<Pdf> {
  const html = writeHtml(report, { fonts: await loadFonts(), openings: openingRequests(report), plans, revision: 'C' });
  return readPdf(await printToPdf(chromium!, html, { createdAt: new Date(report.createdAt) }));
}

const textOf = ({ texts }: Page): string => texts.map(({ text }) => text).join(' ');
const bare = (text: string): string => text.replace(/\s+/g, '');

/** Points: 15 mm at the sides of a page, and where head and foot stand. */
const MARGIN = (15 / 25.4) * 72;
/** What a reader makes of widths: 0.5 mm. */
const ROUNDING = 1.5;

/**
 * Browsers print a document smaller where something in it is wider than the page. Captions of title blocks are 1.8 mm high
 * (a capital, ISO 3098-1), and capitals of the typeface 0.668 of its size.
 */
function expectToScale({ pages }: Pdf): void {
  const captions = pages.flatMap(({ texts }) => texts.filter(({ text }) => text === 'Scale'));
  expect(captions.length).toBeGreaterThan(1);
  for (const { size } of captions) expect(size).toBeCloseTo(((1.8 / 25.4) * 72) / 0.668, 1);
}

function expectPrinted({ pages, fonts }: Pdf, report: Report): void {
  for (const [name, isEmbedded] of fonts) expect([name, isEmbedded]).toEqual([name, true]);
  expect([...fonts.keys()].some((name) => name.includes('AtkinsonHyperlegibleNext'))).toBe(true);
  for (const [i, page] of pages.entries()) {
    const said = textOf(page);
    expect(said).toContain(`Page ${i + 1} of ${pages.length}`);
    expect(said).toContain('A review of models, not a certification');
    expect(said.includes('DEMONSTRATION DATA')).toBe(report.demonstration);
    for (const { text, x, y, width } of page.texts) {
      const place = `"${text}" on page ${i + 1}`;
      expect(x, place).toBeGreaterThan(MARGIN - ROUNDING);
      expect(x + width, place).toBeLessThan(page.width - MARGIN + ROUNDING);
      expect(y, place).toBeGreaterThan(0);
      expect(y, place).toBeLessThan(page.height);
    }
  }
}

describe.skipIf(chromium === undefined)('printed', () => {
  describe('of the demo building', () => {
    let report: Report;
    let pdf: Pdf;
    beforeAll(async () => {
      const { plans, report: whole } = await demoPlans();
      // A part of it, since all of it takes 20 s to print; the plans are whole.
      const penetrations = whole.penetrations.filter((p) => p.outcome === 'failed').slice(0, 6);
      const [strategy, supports] = [whole.strategy.slice(0, 4), whole.supports.slice(0, 4)];
      report = { ...whole, penetrations, strategy, supports };
      pdf = await print(report, plans);
    });

    it('has heads, feet and page numbers on every page, all fonts in it, no text beyond its margins', () => {
      expectPrinted(pdf, report);
      expectToScale(pdf);
    });

    it('has A4 pages, those of plans and tables in landscape, each plan on a page of its own', () => {
      const sizes = new Set(pdf.pages.map(({ width, height }) => [width, height].map(Math.round).sort().join()));
      expect([...sizes]).toEqual(['595,842']);
      const plans = pdf.pages.filter((page) => /Sheet \s*\d+ of \d+/.test(textOf(page)));
      expect(plans.length).toBeGreaterThanOrEqual(3);
      for (const page of plans) {
        expect(page.width).toBeGreaterThan(page.height);
        expect(textOf(page)).toMatch(/^.*Plan of .*Plan of/s);
      }
      const sheets = plans.map((page) => /Sheet \s*(\d+) of (\d+)/.exec(textOf(page))!.slice(1).map(Number));
      expect(sheets.filter(([number]) => number === 1).reduce((sum, [, of]) => sum + of!, 0)).toBe(plans.length);
      expect(plans.reduce((sum, { links }) => sum + links, 0)).toBeGreaterThanOrEqual(report.penetrations.length);
    });
  });

  describe('of hostile names and many rows', () => {
    const LONG = 'Wand-EG-Nord_Achse.3/bis/7 mit Vorsatzschale '.repeat(6);
    const UNBROKEN = 'WandEGNordAchse3bis7mitVorsatzschale'.repeat(8);
    const report = aReport({
      brief: { file: `${UNBROKEN}.yaml`, sha256: 'c'.repeat(64), demonstration: true },
      penetrations: Array.from({ length: 24 }, (_, i) =>
        aPenetration(i + 1, {
          tag: `TAG${i}-X`,
          duct: aDuct({ name: LONG, system: i % 2 ? LONG : UNBROKEN, globalId: `duct-${i}` }),
          barrier: aBarrier({ name: i % 2 ? UNBROKEN : LONG, rating: rating({ text: LONG.slice(0, 80) }) }),
        }),
      ),
      findings: [1, 2].map((i) => aFinding('gap', { subject: onPenetration(i), message: LONG, remedy: UNBROKEN })),
    });
    let pdf: Pdf;
    beforeAll(async () => {
      pdf = await print(report);
    });

    it('keeps inside its margins, and is not printed smaller', () => {
      expectPrinted(pdf, report);
      expectToScale(pdf);
    });

    it('repeats the heads of tables on each page, breaks between rows and loses no text', () => {
      const register = pdf.pages.filter((page) =>
        report.penetrations.some(({ tag }) => textOf(page).includes(`${tag} `)),
      );
      const listing = register.filter(({ width, height }) => width > height);
      expect(listing.length).toBeGreaterThan(2);
      for (const page of listing) expect(textOf(page)).toMatch(/Tag\s+Outcome\s+Storey/);
      const all = bare(listing.map(textOf).join(' '));
      for (const { tag, barrier, duct } of report.penetrations) {
        expect(all.split(bare(tag)).length - 1).toBeGreaterThanOrEqual(1);
        // Names stand on one page, whole, as long as the cell's own limit.
        for (const name of [barrier.name, duct.system!]) expect(all).toContain(bare(name).slice(0, 200));
      }
    });
  });
});
