/** install-cards.html: read by an HTML parser and a QR decoder by others, and printed by a browser where there is one. */
import { constants, inflateSync } from 'node:zlib';
import type { DefaultTreeAdapterTypes as Tree } from 'parse5';
import { beforeAll, describe, expect, it } from 'vitest';
import { BARE_WIDTH, drawElevation, SHEET_HEIGHT } from '../../src/draw/paper/elevation.js';
import type { FontFace } from '../../src/draw/paper/font-face.js';
import { drawSection } from '../../src/draw/paper/section.js';
import { printToPdf } from '../../src/platform/chromium.js';
import { loadFonts } from '../../src/platform/fonts.js';
import { cardList } from '../../src/report/cards/which.js';
import { writeInstallCards } from '../../src/report/cards/write-install-cards.js';
import { toSettle } from '../../src/report/hold-points.js';
import { lookupOf } from '../../src/report/lookup.js';
import type { Report } from '../../src/report/schema.js';
import { chromium } from '../chromium.js';
import { faultsOf } from '../draw/paper/svg-texts.js';
import { rating } from '../model-factories.js';
import { builtReport } from './built-report.js';
import { demoReport } from './demo-report.js';
import { aBarrier, aPenetration, aReport, unreadable, unstated } from './factories.js';
import { all, attribute, named, read, sections, textOf } from './read-html.js';
import { readCode } from './read-qr.js';

let fonts: FontFace[];
beforeAll(async () => {
  fonts = await loadFonts();
});

const html = (report: Report): string => new TextDecoder().decode(writeInstallCards(report, fonts));
const cardPages = (report: Report): Tree.Element[] => sections(read(html(report)), 'card');
const classed = (node: Tree.Node, className: string): Tree.Element[] =>
  all(node).filter((one) => attribute(one, 'class')?.split(' ').includes(className));
/** Pages of each card, in the order of the file. */
function cardsOf(report: Report): Tree.Element[][] {
  const cards: Tree.Element[][] = [];
  for (const page of cardPages(report))
    if (textOf(page).includes('page 1 of ')) cards.push([page]);
    else cards.at(-1)!.push(page);
  return cards;
}

const HOSTILE = `"><script>alert(1)</script><img src=x onerror=alert(2)> </style>& ‮evil ${'long '.repeat(60)}${'W'.repeat(200)}`;

describe('the demo building', () => {
  let report: Report;
  let cards: Tree.Element[][];
  beforeAll(async () => {
    report = await demoReport();
    cards = cardsOf(report);
  });

  it('has a card for every rated barrier that a duct passes, by storey and tag, and names what has none', () => {
    const expected = report.penetrations
      .filter(
        ({ crossing, barrier: { rating: r } }) =>
          crossing === 'through' && r.state !== 'unstated' && r.state !== 'notRequired',
      )
      .sort((a, b) => a.storey!.elevation - b.storey!.elevation || (a.tag < b.tag ? -1 : 1));
    expect(cards.map(([front]) => textOf(named(front!, 'h2')[0]!))).toEqual(expected.map(({ tag }) => tag));
    const listed = sections(read(html(report)), 'list')
      .map(textOf)
      .join(' ');
    for (const { tag } of report.penetrations) expect(listed).toContain(tag);
  });

  it('has on every page tag, revision, its number, the stamp and the caution', () => {
    const tags = cardList(report).cards.map(({ tag }) => tag);
    for (const [i, pages] of cards.entries())
      for (const [n, page] of pages.entries()) {
        const said = textOf(page);
        for (const words of [tags[i]!, `page ${n + 1} of ${pages.length}`, 'DEMONSTRATION DATA', 'not a certification'])
          expect(said).toContain(words);
        expect(said.toLowerCase()).toContain('revision not stated');
      }
  });

  it('carries a code that a decoder reads as the key, with the key and the tag in clear beside it', () => {
    const keys = new Map(report.penetrations.map(({ tag, key }) => [tag, key]));
    for (const [front] of cards) {
      const key = keys.get(textOf(named(front!, 'h2')[0]!))!;
      expect(readCode(classed(front!, 'qr')[0]!)).toBe(key);
      expect(textOf(classed(front!, 'key')[0]!)).toBe(key);
    }
  });

  it('says NOT READY on every page of what has not passed, and on no page of what has', () => {
    const { cards: listed } = cardList(report);
    expect(new Set(listed.map(({ outcome }) => outcome))).toEqual(new Set(['passed', 'failed', 'cantTell']));
    for (const [i, pages] of cards.entries()) {
      const ready = listed[i]!.outcome === 'passed';
      for (const page of pages)
        expect([listed[i]!.tag, classed(page, 'not-ready').length > 0]).toEqual([listed[i]!.tag, !ready]);
      for (const page of pages) expect(textOf(page).includes('NOT READY')).toBe(!ready);
      // Whatever is to be settled before handover alone holds back nothing on the card.
      const settle = toSettle(listed[i]!, lookupOf(report));
      const isHeld = !ready && (settle.length === 0 || settle.some(({ stops }) => stops !== 'handover'));
      expect([listed[i]!.tag, pages.some((page) => textOf(page).includes('STOP'))]).toEqual([listed[i]!.tag, isHeld]);
    }
  });

  it('names what is to be settled, with its remedy, and stops the hold points that it holds back', () => {
    const gap = report.findings.find(
      ({ check, outcome }) => check === 'gap-within-tested-range' && outcome === 'failed',
    )!;
    const tag = report.penetrations.find(({ id }) => id === gap.subject.id)!.tag;
    const card = cards.find(([front]) => textOf(named(front!, 'h2')[0]!) === tag)!;
    const said = card.map(textOf).join(' ');
    expect(said).toContain(gap.message);
    expect(said).toContain(`Do: ${gap.remedy ?? 'not stated'}`);
    const held = card.flatMap((page) => classed(page, 'stop')).map(textOf);
    expect(held).toEqual(
      ['Opening ready', 'Packed and sealed', 'Angles and collars fixed', 'Local build-up on', 'Closed up'].map(
        (one) => `STOP: ${one}`,
      ),
    );
  });

  it('draws elevation and section without their columns, no text over another or out of the drawing', () => {
    const others = new Map(report.penetrations.map((p) => [p.id, p]));
    const size = { width: BARE_WIDTH, height: SHEET_HEIGHT };
    for (const penetration of cardList(report).cards) {
      const elevation = drawElevation({ penetration, findings: [], others, id: 'e', isBare: true });
      expect([penetration.tag, faultsOf(elevation, size)]).toEqual([penetration.tag, []]);
      const section = drawSection({ penetration, id: 's', isBare: true });
      expect([penetration.tag, faultsOf(section, size)]).toEqual([penetration.tag, []]);
      expect(elevation).toContain(`width="${BARE_WIDTH}mm"`);
    }
  });

  it('gives no id twice, and the same bytes for the same report', () => {
    const text = html(report);
    const ids = [...text.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(html(report)).toBe(text);
  });
});

describe('parts', () => {
  /** The first numbers in the words of an amount: what is counted, cut or poured. */
  const numbersOf = (words: string): number[] => (words.match(/\d+(\.\d+)?/g) ?? []).map(Number);

  it('have the quantities of report.json, each once, in its order', () => {
    const report = builtReport();
    const { items, materials } = report.takeoff!;
    const rows = cardsOf(report).map((pages) =>
      pages.flatMap((page) => all(page).filter((one) => attribute(one, 'data-item') !== undefined)),
    );
    expect(rows.map((card) => card.map((row) => attribute(row, 'data-item')))).toEqual([items.map(({ id }) => id), []]);
    for (const [i, row] of rows[0]!.entries()) {
      const item = items[i]!;
      const { measure } = materials.find(({ id }) => id === item.material)!;
      const given = [item.pieces, item.length, item.width].filter((one) => one !== null);
      const poured = item.volumeL === null ? [] : [item.volumeL, ...(item.lengthM === null ? [] : [item.lengthM])];
      const amount = textOf(classed(row, 'amount')[0]!);
      expect(numbersOf(amount)).toEqual(measure === 'l' ? poured : given);
      if (measure === 'l' && item.volumeL === null) expect(amount).toBe('not known');
      expect(textOf(row)).toContain(item.what.slice(1));
    }
  });

  it('that could not be counted are named with the reason', () => {
    expect(cardsOf(builtReport())[0]!.map(textOf).join(' ')).toContain('nobody says how wide it is');
  });

  it('go on on further pages under the same tag where there are many', () => {
    const [first] = cardsOf(builtReport({ long: 9 }));
    expect(first!.length).toBeGreaterThan(6);
    for (const [i, page] of first!.entries()) expect(textOf(page)).toContain(`page ${i + 1} of ${first!.length}`);
    expect(first!.flatMap((page) => all(page).filter((one) => attribute(one, 'data-item'))).length).toBe(81);
  });
});

describe('hostile names', () => {
  it('are text and nothing else', () => {
    const document = read(html(builtReport({ name: HOSTILE })));
    expect(named(document, 'script')).toEqual([]);
    expect(named(document, 'img')).toEqual([]);
    expect(
      all(document)
        .flatMap(({ attrs }) => attrs.map(({ name }) => name))
        .filter((name) => name.startsWith('on')),
    ).toEqual([]);
    expect(textOf(document)).not.toContain('\u202e');
  });
});

it('gives no card where nothing tells that a rating holds, and one that is not ready where it can’t be read', () => {
  const at = (n: number, changes: object) => aPenetration(n, { barrier: aBarrier(changes) });
  const { cards, without } = cardList(
    aReport({
      penetrations: [
        at(1, { rating: unstated }),
        at(2, { rating: rating({ state: 'notRequired' }) }),
        at(3, { rating: unreadable }),
        aPenetration(4, { crossing: 'endsInside' }),
      ],
    }),
  );
  expect(cards.map(({ id }) => id)).toEqual(['P-0003']);
  expect(without.map(({ penetration: { id } }) => id)).toEqual(['P-0001', 'P-0002', 'P-0004']);
});

describe.skipIf(chromium === undefined)('printed', () => {
  /** Chromium writes a page of a PDF as a plain object of this type. */
  const countPages = (pdf: Uint8Array): number =>
    [
      ...Buffer.from(pdf)
        .toString('latin1')
        .matchAll(/\/Type ?\/Page\b/g),
    ].length;

  /**
   * How much smaller than true each page is printed: Chromium shrinks a document in which anything is wider than the page.
   * Its pages begin with a matrix from dots of 1/300 inch to points of 1/72.
   */
  function scalesOf(pdf: Uint8Array): number[] {
    const text = Buffer.from(pdf).toString('latin1');
    return [...text.matchAll(/stream\r?\n/g)].flatMap(({ index, 0: { length } }) => {
      const end = text.indexOf('endstream', index);
      const content = inflated(Buffer.from(text.slice(index + length, end), 'latin1'));
      const [, scale] = /^(?:\s*q)?\s*([\d.]+) 0 0 -[\d.]+ 0 [\d.]+ cm/.exec(content) ?? [];
      return scale === undefined || Number(scale) > 1 ? [] : [Number((Number(scale) / (72 / 300)).toFixed(4))];
    });
  }
  const inflated = (bytes: Buffer): string =>
    bytes[0] === 0x78
      ? inflateSync(bytes, { finishFlush: constants.Z_SYNC_FLUSH }).toString('latin1').slice(0, 200)
      : '';

  async function expectOneSheetEach(report: Report): Promise<void> {
    const bytes = writeInstallCards(report, fonts);
    const pages = named(read(new TextDecoder().decode(bytes)), 'section').length;
    const pdf = await printToPdf(chromium!, bytes, { createdAt: new Date(report.createdAt) });
    const sizes = [
      ...Buffer.from(pdf)
        .toString('latin1')
        .matchAll(/\/MediaBox ?\[0 0 ([\d.]+) ([\d.]+)\]/g),
    ];
    expect(countPages(pdf)).toBe(pages);
    expect(scalesOf(pdf)).toEqual(Array(pages).fill(1));
    // A5, ISO 216: 148 x 210 mm.
    for (const [, width, height] of sizes) {
      expect((Number(width) / 72) * 25.4).toBeCloseTo(148, 0);
      expect((Number(height) / 72) * 25.4).toBeCloseTo(210, 0);
    }
  }

  it('every page is one sheet of A5, so nothing runs over', async () => {
    const report = await demoReport();
    const seldom = report.penetrations.filter(({ outcome }) => outcome !== 'passed');
    const common = report.penetrations.filter(({ outcome }) => outcome === 'passed').slice(0, 6);
    await expectOneSheetEach({ ...report, penetrations: [...seldom, ...common] });
  }, 240_000);

  it('so is every page with long and hostile names', async () => {
    await expectOneSheetEach(builtReport({ name: HOSTILE, long: 3 }));
    await expectOneSheetEach(builtReport({ name: 'ordinary words of a long name '.repeat(12), long: 3 }));
  }, 240_000);
});
