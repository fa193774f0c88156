import { describe, expect, it } from 'vitest';
import { MARKS } from '../../src/draw/marks.js';
import { drawElevation } from '../../src/draw/paper/elevation.js';
import { mark } from '../../src/draw/paper/mark.js';
import { drawSection } from '../../src/draw/paper/section.js';
import type { Outcome } from '../../src/model.js';
import { pageSvg } from '../../viewer/parts/page-svg.js';
import { built } from '../draw/paper/built-penetrations.js';
import { aBarrier, aFinding, aPenetration, aReport, onPenetration } from '../report/factories.js';

const HOSTILE = 'Wand fill="#B03E00" style="x" <b>&';

function elevation(): string {
  const { penetrations, findings } = aReport({
    penetrations: [aPenetration(1, { barrier: aBarrier({ name: HOSTILE }) })],
    findings: [aFinding('gap', { subject: onPenetration(1), message: HOSTILE })],
  });
  return drawElevation({ penetration: penetrations[0]!, findings, others: new Map(), id: 'e' });
}

const section = (): string =>
  drawSection({
    penetration: built({}, { system: 'demonstration-blanket', detail: 'framed-wall', layers: 2 }),
    id: 's',
  });

describe.each([
  ['elevation', elevation],
  ['section', section],
])('the %s of a penetration, on the page', (_, draw) => {
  it('takes its colours from the page, and has no style that the page forbids', () => {
    const drawn = pageSvg(draw());
    expect(drawn).toContain('var(--ink)');
    const attributes = [...drawn.matchAll(/\s([\w:-]+)="([^"]*)"/g)];
    expect(
      attributes.filter(([, , value]) => /#[0-9a-f]{3,8}\b(?!\))/i.test(value!) && !value!.startsWith('url(')),
    ).toEqual([]);
    expect(attributes.filter(([, name]) => name === 'style' || name === 'font-family')).toEqual([]);
  });

  it('is as wide as what holds it, and says what it is', () => {
    const [root = ''] = /^<svg[^>]*>/.exec(pageSvg(draw())) ?? [];
    expect(root).not.toMatch(/ (width|height)=/);
    expect(root).toMatch(/viewBox="0 0 180 112".*role="img"/);
    expect(pageSvg(draw())).toMatch(/<svg[^>]*><title>[^<]+<\/title>/);
  });

  it('loses nothing else', () => {
    expect(count(pageSvg(draw()))).toEqual(count(draw()));
  });
});

const count = (svg: string): number => [...svg.matchAll(/<[a-z]/g)].length;

it('leaves the texts of models as they are', () => {
  const texts = (svg: string): string[] => [...svg.matchAll(/>([^<]+)</g)].map(([, text]) => text!);
  expect(texts(pageSvg(elevation()))).toEqual(texts(elevation()));
});

it('has a colour of the page for every outcome', () => {
  for (const outcome of Object.keys(MARKS) as Outcome[])
    expect(pageSvg(mark(outcome, [0, 0], 4))).toMatch(/fill="var\(--[a-z-]+\)"/);
});
