import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { readmeElevation } from '../../../fixtures/write-elevation.js';
import { drawElevation, SHEET_HEIGHT, SHEET_WIDTH } from '../../../src/draw/paper/elevation.js';
import { circle, rectangle } from '../../../src/geometry/polygon.js';
import type { Finding, Gaps, Penetration, Polygon, Side } from '../../../src/model.js';
import { findingsByPenetration } from '../../../src/report/penetration-outcome.js';
import type { Report } from '../../../src/report/schema.js';
import { NO_GAPS, rating, UNREADABLE, UNSTATED } from '../../model-factories.js';
import { demoReport } from '../../report/demo-report.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, onPenetration } from '../../report/factories.js';
import { faultsOf, textsOf } from './svg-texts.js';

const SHEET = { width: SHEET_WIDTH, height: SHEET_HEIGHT };

/** What is drawn of one penetration of a report. */
function drawn(report: Report, index = 0, id = 'x'): string {
  const penetration = report.penetrations[index]!;
  const findings = findingsByPenetration(report).get(penetration.id) ?? [];
  return drawElevation({ penetration, findings, others: new Map(report.penetrations.map((p) => [p.id, p])), id });
}

const one = (changes: Partial<Penetration>, findings: readonly Finding[] = []): string =>
  drawn(aReport({ penetrations: [aPenetration(1, changes)], findings }));

const shifted = (outline: Polygon, x: number, y: number): Polygon => outline.map(([a, b]) => [a + x, b + y] as const);

/** 600 × 400 with these gaps, in a rectangular opening. */
function gapped(gaps: { readonly [S in Side]: number }): Pick<Penetration, 'gaps' | 'outlines' | 'opening'> {
  const [width, height] = [600 + gaps.left + gaps.right, 400 + gaps.top + gaps.bottom];
  const opening = shifted(rectangle(width, height), (gaps.right - gaps.left) / 2, (gaps.top - gaps.bottom) / 2);
  const all = Object.values(gaps);
  return {
    gaps: { ...gaps, min: Math.min(...all), max: Math.max(...all), facing: {} },
    outlines: { duct: [rectangle(600, 400)], opening: [opening] },
    opening: { model: 'm2', globalId: 'O', shape: 'rectangular', width, height, from: 'element' },
  };
}

const gapFinding = (side: Side, measured: number): Finding =>
  aFinding('gap', {
    check: 'gap-within-range',
    subject: onPenetration(1),
    side,
    measured,
    limit: { atLeast: 10, atMost: 50 },
    message: `The ${side} gap is ${measured} mm.`,
  });

describe('the demo building', () => {
  let report: Report;
  beforeAll(async () => {
    report = await demoReport();
  });

  it('has no text over another and none that leaves the sheet', () => {
    expect(report.penetrations.length).toBeGreaterThan(40);
    for (const [i, p] of report.penetrations.entries()) expect(faultsOf(drawn(report, i), SHEET), p.tag).toEqual([]);
  });

  it('is drawn in the picture of the README as it is drawn today', async () => {
    const written = readFileSync('fixtures/elevation.svg', 'utf8');
    const today = await readmeElevation(report);
    // The typeface first, apart: nobody could read the difference.
    const typeface = /base64,[^)]+/g;
    expect(written.replace(typeface, '')).toBe(today.replace(typeface, ''));
    expect(written === today).toBe(true);
  });

  it('shows every gap, the size of the opening and the tag', () => {
    for (const [i, p] of report.penetrations.entries()) {
      const texts = textsOf(drawn(report, i)).map((t) => t.text);
      expect(texts).toContain(p.tag);
      for (const side of ['top', 'bottom', 'left', 'right'] as const) {
        const gap = p.gaps[side];
        const words = p.gaps.facing[side] ? new RegExp(`^${gap} to `) : new RegExp(`^${gap}$`);
        if (gap !== null) expect(texts.filter((t) => words.test(t)).length, `${p.tag} ${side}`).toBeGreaterThan(0);
      }
      if (p.opening && p.gaps.left !== null) expect(texts).toContain(String(p.opening.width));
    }
  });

  it('shows what failed by mark and limit, not by colour alone', () => {
    const i = report.penetrations.findIndex((p) => p.gaps.right === 140);
    const texts = textsOf(drawn(report, i)).map((t) => t.text);
    expect(texts).toContain('140');
    expect(texts).toContain('allowed 10 to 50');
    // The broken bar: at the gap, beside its note, and beside the outcome.
    expect(drawn(report, i).match(/M5 2h6v8h-6ZM13 14h6v8h-6Z/g)).toHaveLength(3);
  });
});

describe('to scale', () => {
  /** Width on paper of the outline with the thick line: opening first, duct after it. */
  function widths(svg: string): number[] {
    return [...svg.matchAll(/<path d="([^"]+)" fill="[^"]+" stroke="#1F2426" stroke-width="0.5"\/>/g)].map(([, d]) => {
      const xs = [...d!.matchAll(/[ML](-?[\d.]+) /g)].map(([, x]) => Number(x));
      return Math.max(...xs) - Math.min(...xs);
    });
  }
  it.each([
    [{ top: 30, bottom: 30, left: 30, right: 140 }, 10],
    [{ top: 30, bottom: 30, left: 30, right: 3000 }, 50],
    [{ top: 0, bottom: 0, left: 0, right: 0 }, 10],
  ])('%j is drawn 1:%d', (gaps, scale) => {
    const svg = one(gapped(gaps));
    expect(textsOf(svg).map((t) => t.text)).toContain(`1:${scale}, all in mm`);
    const [opening, duct] = widths(svg);
    expect(opening).toBeCloseTo((600 + gaps.left + gaps.right) / scale, 1);
    expect(duct).toBeCloseTo(600 / scale, 1);
    // Five parts of 10 mm on paper.
    expect(textsOf(svg).map((t) => t.text)).toContain(`${50 * scale} mm`);
  });
  it('mirrors nothing: right is right and top is top', () => {
    const svg = one(gapped({ top: 100, bottom: 10, left: 10, right: 100 }));
    const [opening, duct] = [...svg.matchAll(/<path d="M([\d.]+) ([\d.]+)L([\d.]+) [\d.]+L[\d.]+ ([\d.]+)/g)]
      .filter(([whole]) => !whole.includes('M0.5'))
      .map(([, left, bottom, right, top]) => ({ left, bottom, right, top }))
      .map((o) => Object.fromEntries(Object.entries(o).map(([k, v]) => [k, Number(v)])));
    expect(opening!.right! - duct!.right!).toBeCloseTo(10, 1);
    expect(duct!.left! - opening!.left!).toBeCloseTo(1, 1);
    expect(duct!.top! - opening!.top!).toBeCloseTo(10, 1); // downwards on paper
  });
});

describe('hostile penetrations', () => {
  const LONG = 'Wand EG Nord Achse 3 bis 7 mit Vorsatzschale '.repeat(250);
  const CASES: Readonly<Record<string, () => string>> = {
    'gaps of nothing': () => one(gapped({ top: 0, bottom: 0, left: 0, right: 0 })),
    'gaps of 0.4 mm': () => one(gapped({ top: 0.4, bottom: 0.4, left: 0.4, right: 0.4 })),
    'gaps of 3 m': () => one(gapped({ top: 3000, bottom: 3000, left: 3000, right: 3000 })),
    'negative gaps': () => one(gapped({ top: -20, bottom: -20, left: -12.5, right: -0.1 })),
    'every gap failed': () =>
      one(
        gapped({ top: 70, bottom: 4, left: 120, right: 0 }),
        (['top', 'bottom', 'left', 'right'] as const).map((s, i) => gapFinding(s, [70, 4, 120, 0][i]!)),
      ),
    'no opening': () => one({ opening: null, gaps: NO_GAPS, outlines: { duct: [rectangle(600, 400)], opening: [] } }),
    'no outline at all': () => one({ opening: null, gaps: NO_GAPS, outlines: { duct: [], opening: [] } }),
    'gaps without outlines': () => one({ outlines: { duct: [], opening: [] } }),
    'an outline of one point': () => one({ outlines: { duct: [[[0, 0]]], opening: [[[0, 0]]] } }),
    'an outline without area': () =>
      one({
        outlines: {
          duct: [
            [
              [0, 0],
              [0, 0],
              [0, 0],
              [0, 0],
            ],
          ],
          opening: [],
        },
      }),
    'round in round': () => one(round(circle(395))),
    'round in round, off centre': () => one(round(shifted(circle(395), 30, -12), 7.7, 72.3)),
    'round in rectangular': () =>
      one({
        ...gapped({ top: 40, bottom: 40, left: 40, right: 40 }),
        outlines: { duct: [circle(400)], opening: [rectangle(480, 480)] },
        duct: aDuct({ shape: 'circular', width: null, height: null, diameter: 400 }),
      }),
    'turned in its own plane': () => {
      const turned = (outline: Polygon) => outline.map(([x, y]) => [x * 0.8 - y * 0.6, x * 0.6 + y * 0.8] as const);
      const plain = gapped({ top: 31.2, bottom: 42.1, left: 10, right: 55.5 });
      return one({
        ...plain,
        outlines: { duct: plain.outlines.duct.map(turned), opening: plain.outlines.opening.map(turned) },
      });
    },
    'two ducts at once': () =>
      one({ outlines: { duct: [rectangle(600, 400), shifted(rectangle(50, 50), 900, 0)], opening: [] } }),
    'names without end': () =>
      one(
        {
          ...gapped({ top: 30, bottom: 30, left: 30, right: 140 }),
          tag: LONG,
          duct: aDuct({ name: LONG, system: LONG }),
          barrier: aBarrier({ name: LONG, rating: rating({ text: LONG }) }),
          storey: { globalId: 's', name: LONG, elevation: 0 },
        },
        Array.from({ length: 40 }, () => aFinding('opening', { subject: onPenetration(1), message: LONG })),
      ),
    'names without letters': () =>
      one({ tag: '', duct: aDuct({ name: '', system: '' }), barrier: aBarrier({ name: '', rating: UNSTATED }) }),
    'names in other scripts': () =>
      one({
        duct: aDuct({ name: '送風ダクト', system: 'مجرى الهواء' }),
        barrier: aBarrier({ name: '\u202eЛестница 🔥'.repeat(20), rating: UNREADABLE }),
      }),
    'sizes beyond any building': () => one(gapped({ top: 1e9, bottom: 1e9, left: 1e9, right: 1e9 })),
  };
  it.each(Object.keys(CASES))('%s: no text over another, none off the sheet, no NaN', (name) => {
    const svg = CASES[name]!();
    expect(faultsOf(svg, SHEET)).toEqual([]);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('escapes what models say', () => {
    const svg = one({ barrier: aBarrier({ name: '</svg><script>alert(1)</script>' }), tag: '"><img onerror="x">' });
    expect(svg).not.toMatch(/<script|<img/);
    expect(textsOf(svg).some((t) => t.text.startsWith('"><img'))).toBe(true);
  });

  it('of any gaps lays its text out clear', () => {
    const gap = fc.oneof(fc.integer({ min: -300, max: 4000 }), fc.constantFrom(0, 0.1, 0.4, 30)).map((n) => n / 1);
    fc.assert(
      fc.property(
        fc.tuple(gap, gap, gap, gap),
        fc.subarray(['top', 'bottom', 'left', 'right'] as const),
        (all, failing) => {
          const [top, bottom, left, right] = all;
          const gaps = { top, bottom, left, right };
          if (600 + left + right < 1 || 400 + top + bottom < 1) return;
          const svg = one(
            gapped(gaps),
            failing.map((side) => gapFinding(side, gaps[side])),
          );
          expect(faultsOf(svg, SHEET)).toEqual([]);
          for (const side of failing)
            expect(textsOf(svg).map((t) => t.text)).toContain(String(gaps[side]).replace('-', '\u2212'));
        },
      ),
      { numRuns: 150, seed: 20261125 },
    );
  });
});

function round(opening: Polygon, min = 40, max = 40): Partial<Penetration> {
  const gaps: Gaps = { ...NO_GAPS, min, max };
  return {
    gaps,
    duct: aDuct({ shape: 'circular', width: null, height: null, diameter: 315 }),
    outlines: { duct: [circle(315)], opening: [opening] },
    opening: { model: 'm2', globalId: 'O', shape: 'circular', width: 395, height: 395, from: 'element' },
  };
}

describe('neighbours', () => {
  it('stand where they are, however their own drawing is turned', () => {
    const other = aPenetration(2, {
      position: [4000, 0, 2000],
      frame: { normal: [0, -1, 0], right: [-1, 0, 0], up: [0, 0, 1] },
    });
    const self = aPenetration(1, { neighbours: [{ penetration: 'P-0002', distance: 400 }] });
    const svg = drawn(aReport({ penetrations: [self, other] }));
    expect(textsOf(svg).map((t) => t.text)).toContain('400 to TAG2-9');
    expect(faultsOf(svg, SHEET)).toEqual([]);
    const scale = Number(/>1:(\d+), all/.exec(svg)![1]);
    const dashed = /<path d="M([\d.]+) [^"]*"[^>]*stroke-dasharray/.exec(svg)!;
    const own = [...svg.matchAll(/<path d="M([\d.]+) [^"]*" fill="#F6F5F1" stroke="#1F2426" stroke-width="0.5"/g)][0]!;
    // Both outlines begin at a left corner of their own; the other's is mirrored, so its is at the right.
    expect((Number(dashed[1]) - Number(own[1])) * scale).toBeCloseTo(1600, -1);
  });
});
