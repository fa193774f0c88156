/** inspection-plan.html as an HTML parser by others reads it. */
import type { DefaultTreeAdapterTypes as Tree } from 'parse5';
import { beforeAll, describe, expect, it } from 'vitest';
import type { FontFace } from '../../src/draw/paper/font-face.js';
import { loadFonts } from '../../src/platform/fonts.js';
import { cardList } from '../../src/report/cards/which.js';
import { writeInspectionPlan } from '../../src/report/inspection/write-inspection-plan.js';
import type { Report } from '../../src/report/schema.js';
import type { StoreyPlan } from '../../src/scene/storey-plan.js';
import { builtReport } from './built-report.js';
import { demoPlans } from './demo-report.js';
import { aReport, aStrategyRow, aSupportRow } from './factories.js';
import { all, attribute, named, read, sections, textOf } from './read-html.js';

let fonts: FontFace[];
beforeAll(async () => {
  fonts = await loadFonts();
});

const html = (report: Report, plans?: readonly StoreyPlan[]): string =>
  new TextDecoder().decode(writeInspectionPlan(report, { fonts, ...(plans && { plans }) }));

type Row = Readonly<Record<string, string>>;
/** What a table of an article says, by its heads; a cell over several rows stands in each. */
function rowsOf(article: Tree.Element): Row[] {
  const heads = named(named(article, 'thead')[0]!, 'tr').at(-1)!;
  const names = named(heads, 'th').map(textOf);
  return named(article, 'tbody').flatMap((body) => {
    const group = named(body, 'th').map(textOf);
    return named(body, 'tr').map((row) =>
      Object.fromEntries([...group, ...named(row, 'td').map(textOf)].map((cell, i) => [names[i]!, cell])),
    );
  });
}

/** Tables of penetrations, by the penetration's id. */
const articlesOf = (document: Tree.Node): ReadonlyMap<string, Tree.Element> =>
  new Map(named(document, 'article').map((one) => [attribute(one, 'id')?.replace('inspect-', '') ?? '', one]));

describe('the demo building', () => {
  let report: Report;
  let plans: StoreyPlan[];
  let text: string;
  let document: Tree.Document;
  let articles: ReadonlyMap<string, Tree.Element>;
  beforeAll(async () => {
    ({ report, plans } = await demoPlans());
    text = html(report, plans);
    document = read(text);
    articles = articlesOf(document);
  });

  it('has for each storey its plan and then its penetrations, every one that has a card once', () => {
    const kinds = named(document, 'section').map((one) => attribute(one, 'class')!.split(' ')[0]!);
    expect(kinds.filter((kind, i) => kind !== kinds[i - 1])).toEqual([
      'summary',
      ...plans.filter(({ penetrations }) => penetrations.length > 0).flatMap(() => ['plan', 'storey']),
      'runs',
    ]);
    const ids = named(document, 'article').flatMap((one) => attribute(one, 'id')?.replace('inspect-', '') ?? []);
    expect([...ids].sort()).toEqual(
      cardList(report)
        .cards.map(({ id }) => id)
        .sort(),
    );
  });

  it('accepts what the chosen document says, and says so where nobody does', () => {
    let stated = 0;
    for (const p of cardList(report).cards) {
      const { chosen } = p.treatment;
      const rows = rowsOf(articles.get(p.id)!);
      for (const [name, what] of [
        ['narrowestGap', 'narrowest'],
        ['widestGap', 'widest'],
      ] as const) {
        const limit = chosen?.scope.find((line) => line.name === name)?.limit;
        const row = rows.find((one) => one['Look at']!.includes(`${what} gap`))!;
        expect([p.tag, row.Accepted]).toEqual([p.tag, limit ? `${limit.atLeast} to ${limit.atMost} mm` : 'not stated']);
        if (limit) stated += 1;
      }
      for (const row of rows) {
        expect(row['Inspected by']).toBe('not stated');
        expect([row.Result, row.Signed, row.Date]).toEqual(['', '', '']);
        expect(row.Accepted).not.toBe('');
      }
    }
    expect(stated).toBeGreaterThan(60);
  });

  it('stops the hold points of what has not passed, and of nothing else', () => {
    for (const p of cardList(report).cards) {
      const said = textOf(articles.get(p.id)!);
      expect([p.tag, said.includes('NOT READY')]).toEqual([p.tag, p.outcome !== 'passed']);
      if (p.outcome === 'passed') expect(said).not.toContain('STOP');
    }
  });

  it('names the strategy, protection, supports and what is not stated of every run that must resist', () => {
    const runs = named(sections(document, 'runs')[0]!, 'article');
    const rows = report.strategy.filter(({ mustResist }) => mustResist !== false);
    expect(runs.length).toBe(rows.length);
    for (const [i, run] of runs.entries()) {
      expect(textOf(named(run, 'h3')[0]!)).toContain(rows[i]!.run);
      const looked = rowsOf(run).map((row) => row['Look at']!);
      for (const word of ['Protection', 'Laps', 'Supports'])
        expect(looked.some((one) => one.startsWith(word))).toBe(true);
    }
  });

  it('stamps and cautions every section, links tags to tables that are there, and is the same each time', () => {
    for (const section of named(document, 'section')) {
      expect(textOf(section)).toContain('DEMONSTRATION DATA');
      expect(textOf(section)).toContain('not a certification');
    }
    const ids = all(document).flatMap((one) => attribute(one, 'id') ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    const links = all(document).flatMap((one) => (one.tagName === 'a' ? (attribute(one, 'href') ?? []) : []));
    expect(links.filter((link) => !ids.includes(link.slice(1)))).toEqual([]);
    expect(links.length).toBeGreaterThan(90);
    expect(html(report, plans)).toBe(text);
  });
});

it('takes quantities as report.json has them', () => {
  const report = builtReport();
  const rows = rowsOf(articlesOf(read(html(report))).get('P-0001')!);
  const accepted = rows.map((row) => row.Accepted);
  for (const words of [
    '8.941 l',
    '4 × 680 mm',
    '32 pieces',
    '4 × 800 × 100 mm',
    '2 × 3012 × 200.5 mm',
    '0.419 l along 5.824 m',
  ])
    expect(accepted).toContain(words);
});

it('hostile names are text and nothing else', () => {
  const name = `"><script>alert(1)</script><img src=x onerror=alert(2)>‮${'W'.repeat(400)}`;
  const built = builtReport({ name });
  const runs = aReport({ strategy: [aStrategyRow(name)], supports: [aSupportRow(name)] });
  for (const report of [built, runs]) {
    const document = read(html(report));
    for (const element of ['script', 'img']) expect(named(document, element)).toEqual([]);
    expect(textOf(document)).not.toContain('\u202e');
  }
});
