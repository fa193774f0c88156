/** report.html as parse5 reads it: an HTML parser after the WHATWG standard, by others. */
import type { DefaultTreeAdapterTypes as Tree } from 'parse5';
import { beforeAll, describe, expect, it } from 'vitest';
import type { FontFace } from '../../src/draw/paper/font-face.js';
import { loadFonts } from '../../src/platform/fonts.js';
import { MOST_PAGES, writeHtml } from '../../src/report/html.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import type { Report } from '../../src/report/schema.js';
import type { StoreyPlan } from '../../src/scene/storey-plan.js';
import { rating } from '../model-factories.js';
import { demoPlans } from './demo-report.js';
import {
  aBarrier,
  aDuct,
  aFinding,
  aModel,
  aPenetration,
  aReport,
  aStrategyRow,
  aSupportRow,
  onPenetration,
} from './factories.js';
import { all, attribute, named, read, sections, textOf } from './read-html.js';

let fonts: FontFace[];
beforeAll(async () => {
  fonts = await loadFonts();
});

const html = (report: Report, revision: string | null = null, plans: readonly StoreyPlan[] = []): string =>
  new TextDecoder().decode(writeHtml(report, { fonts, openings: openingRequests(report), plans, revision }));

const links = (node: Tree.Node): string[] => named(node, 'a').flatMap((a) => attribute(a, 'href') ?? []);

describe('the demo building', () => {
  let report: Report;
  let plans: StoreyPlan[];
  let text: string;
  let document: Tree.Document;
  beforeAll(async () => {
    ({ report, plans } = await demoPlans());
    text = html(report, null, plans);
    document = read(text);
  });

  it('has cover, summary, storey plans, a page for each failed penetration, register, strategy, supports, access, evidence, checks and models, in this order', () => {
    const kinds = named(document, 'section').map((s) => attribute(s, 'class')!.split(' ')[0]);
    const failed = report.penetrations.filter((p) => p.outcome === 'failed');
    expect(failed.length).toBeGreaterThan(10);
    const sheets = kinds.filter((kind) => kind === 'plan');
    expect(sheets.length).toBeGreaterThanOrEqual(plans.length);
    expect(kinds).toEqual([
      ...['cover', 'summary', ...sheets],
      ...failed.map(() => 'penetration'),
      ...['register', 'strategy', 'supports', 'access', 'evidence', 'checks', 'models'],
    ]);
    expect(sections(document, 'penetration').map((s) => textOf(named(s, 'h2')[0]!).split(' ')[0])).toEqual(
      failed.map((p) => p.tag),
    );
  });

  it('leads from the tag on a plan to the page of its penetration', () => {
    const failed = report.penetrations.filter((p) => p.outcome === 'failed');
    expect(new Set(links(document))).toEqual(new Set(failed.map((p) => `#page-${p.id}`)));
    const tagged = named(document, 'a').map((a) => [attribute(a, 'href'), textOf(a).replace(' overhead', '')]);
    expect(tagged.sort()).toEqual(failed.map((p) => [`#page-${p.id}`, p.tag]).sort());
    for (const { id, tag: own } of failed) {
      const page = all(document).find((e) => attribute(e, 'id') === `page-${id}`)!;
      expect(textOf(named(page, 'h2')[0]!)).toContain(own);
    }
  });

  it('names the storeys that have no plan', () => {
    const empty = { ...plans[0]!, id: 'L-09', names: ['Attic'], penetrations: [] };
    expect(textOf(sections(read(html(report, null, [...plans, empty])), 'plan')[0]!)).toContain('not drawn: Attic.');
  });

  it('gives on each page the drawing and the facts in their order, with the GlobalIds', () => {
    const failed = report.penetrations.filter((p) => p.outcome === 'failed');
    for (const [i, section] of sections(document, 'penetration').entries()) {
      const p = failed[i]!;
      // The elevation, and the section with what is built.
      expect(named(section, 'svg').filter((s) => attribute(s, 'role') === 'img')).toHaveLength(2);
      const heads = [...named(section, 'th'), ...named(section, 'h3')].map(textOf).filter((t) => /^\d /.test(t));
      expect(heads).toEqual([
        '1 Measured',
        '2 Allowed',
        '3 Basis',
        '4 Remedy',
        '5 Neighbours',
        '6 Dampers',
        '7 Room at the faces',
        '8 Tested details',
        '9 Elements',
      ]);
      for (const id of [p.duct.globalId, p.barrier.globalId, p.opening?.globalId ?? p.barrier.globalId])
        expect(textOf(section)).toContain(id);
      const own = report.findings.filter((f) => f.outcome === 'failed' && f.subject.id === p.id);
      for (const { message, remedy } of own)
        for (const words of [message, remedy ?? '']) expect(textOf(section)).toContain(words);
    }
  });

  it('says the same numbers as report.json', () => {
    const cells = named(sections(document, 'summary')[0]!, 'td').map(textOf);
    const { penetrationOutcomes: at, outcomes } = report.summary;
    expect(cells.slice(0, 6)).toEqual([
      ...['Failed', String(at.failed), String(outcomes.failed)],
      ...["Can't tell", String(at.cantTell), String(outcomes.cantTell)],
    ]);
    const rows = named(sections(document, 'register')[0]!, 'tr')
      .slice(1)
      .map((row) => named(row, 'td').map(textOf));
    expect(rows).toHaveLength(report.penetrations.length);
    for (const [i, p] of report.penetrations.entries()) {
      expect(rows[i]![0]).toBe(p.tag);
      for (const gap of [p.gaps.top, p.gaps.right, p.gaps.min])
        if (gap !== null) expect(rows[i]![7]).toContain(String(gap));
    }
  });

  it('is stamped in the head of every page and in every section, and cautions in every foot', () => {
    const [, top] = /@top-center \{ content: "([^"]*)"/.exec(text)!;
    expect(top).toBe('DEMONSTRATION DATA');
    for (const section of named(document, 'section')) expect(textOf(section)).toMatch(/DEMONSTRATION DATA/);
    expect(text).toMatch(/@bottom-left \{ content: "A review of models/);
    expect(text).toContain('"Page " counter(page) " of " counter(pages)');
    for (const caution of report.cautions) expect(textOf(sections(document, 'cover')[0]!)).toContain(caution);
    expect(html({ ...report, demonstration: false })).not.toContain('DEMONSTRATION');
  });

  it('carries everything with itself and runs nothing', () => {
    expect(named(document, 'script')).toEqual([]);
    expect(all(document).flatMap((e) => e.attrs.filter((a) => /^on|^src$/.test(a.name)))).toEqual([]);
    expect(links(document).filter((href) => !href.startsWith('#'))).toEqual([]);
    expect([...text.matchAll(/url\((?!#|data:font\/woff2;base64,)/g)]).toEqual([]);
    expect(text).not.toMatch(/@import|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
    // Every pattern and clip path is there once, and each that is used is there.
    const ids = all(document).flatMap((e) => attribute(e, 'id') ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of text.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(id);
  });

  it('is the same for the same report, byte for byte', () => {
    expect(html(report, null, plans)).toBe(text);
  });

  it('has models with their hashes, checks with their sources', () => {
    const models = textOf(sections(document, 'models')[0]!);
    for (const { file, sha256 } of report.models) {
      expect(models).toContain(file);
      expect(models).toContain(sha256);
    }
    const checks = textOf(sections(document, 'checks')[0]!);
    for (const { title, basis } of report.checks) {
      expect(checks).toContain(title);
      expect(checks).toContain(basis.source);
    }
  });
});

describe('hostile text from models', () => {
  const HOSTILE = [
    '</style><script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    "'; } body { display: none } /*",
    '\u202egnp.exe\u2066 שלום',
    'a\u0000b\u0008c\ud800d\uffff',
    '</title></svg></section>',
    '&lt;b&gt; &amp; ]]> -->',
    'x'.repeat(10_000),
  ];
  it.each(HOSTILE.map((name) => [JSON.stringify(name).slice(0, 50), name]))('%s stays text', (_, name) => {
    const report = aReport({
      models: [
        aModel({ file: name, application: name }),
        aModel({ id: 'm2', file: `${name}2`, problems: [{ code: 'x', globalId: name, message: name }] }),
      ],
      penetrations: [
        aPenetration(1, {
          tag: name,
          duct: aDuct({ name, system: name, globalId: name }),
          elements: [{ model: 'm1', globalId: name }],
          barrier: aBarrier({ name, rating: rating({ text: name }) }),
          storey: { globalId: name, name, elevation: 0 },
        }),
      ],
      findings: [aFinding('gap', { subject: onPenetration(1), message: name, remedy: name })],
      brief: { file: name, sha256: name, demonstration: true },
      strategy: [aStrategyRow(name)],
      supports: [aSupportRow(name)],
    });
    const text = html(report, name);
    const document = read(text);
    expect(named(document, 'script')).toEqual([]);
    expect(named(document, 'img')).toEqual([]);
    expect(named(document, 'section')).toHaveLength(8);
    expect(all(document).flatMap((e) => e.attrs.filter((a) => a.name.startsWith('on')))).toEqual([]);
    // Nothing left the strings of the style sheet: its braces still pair, and it has one stamp.
    const [style] = named(document, 'style');
    const rules = textOf(style!).replace(/"[^"\n]*"/g, '');
    expect(rules.split('{').length).toBe(rules.split('}').length);
    expect(rules).not.toContain('display: none } /*');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what this is about
    expect(text).not.toMatch(/[\u0000-\u0008\u202a-\u202e\u2066-\u2069\ufffe\uffff]|\p{Surrogate}/u);
    expect(text.length).toBeLessThan(400_000);
  });
});

describe('a big report', () => {
  const many = (count: number): Report => {
    const penetrations = Array.from({ length: count }, (_, i) =>
      aPenetration(i + 1, { id: `P-${i + 1}`, tag: `T${i + 1}`, duct: aDuct({ globalId: `duct-${i + 1}` }) }),
    );
    // The last are the most serious.
    const findings = [...penetrations]
      .reverse()
      .map(({ id, elements }) =>
        aFinding('gap', { subject: { type: 'penetration', id, elements }, message: `Message of ${id}.` }),
      );
    return aReport({ penetrations, findings });
  };
  it('has pages for the most serious, says so, and lists all', () => {
    const report = many(5000);
    const started = process.cpuUsage();
    const text = html(report);
    // Of processor time, measured 1.5 s; a second list of the findings for each penetration would take minutes.
    expect(process.cpuUsage(started).user / 1e6).toBeLessThan(15);
    expect(text.match(/<section class="penetration"/g)).toHaveLength(MOST_PAGES);
    expect(text).toContain(
      `Pages follow for the ${MOST_PAGES} most serious of 5000 failed penetrations; the register has the other ${5000 - MOST_PAGES}.`,
    );
    expect(text).toContain('<h2><bdi>T5000</bdi>');
    expect(text).not.toContain('<h2><bdi>T1</bdi>');
    expect(text.match(/<b><bdi>T\d+<\/bdi><\/b>/g)).toHaveLength(5000);
  });
  it('of as many as there are pages leaves none out', () => {
    const text = html(many(MOST_PAGES));
    expect(text).toContain(`A page follows for each of ${MOST_PAGES} failed penetrations.`);
  });
});

it('says plainly that nothing failed', () => {
  const document = read(html(aReport()));
  expect(textOf(sections(document, 'summary')[0]!)).toContain('No check failed.');
  expect(sections(document, 'penetration')).toEqual([]);
});
