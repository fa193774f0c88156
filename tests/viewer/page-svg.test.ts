import { describe, expect, it } from 'vitest';
import { MARKS } from '../../src/draw/marks.js';
import { drawCuttingPlan } from '../../src/draw/paper/cutting-plan.js';
import { drawElevation } from '../../src/draw/paper/elevation.js';
import { mark } from '../../src/draw/paper/mark.js';
import { drawSection } from '../../src/draw/paper/section.js';
import type { Outcome } from '../../src/model.js';
import { planCuts, type Stock } from '../../src/quantify/cutting/index.js';
import { pageSvg } from '../../viewer/parts/page-svg.js';
import { built } from '../draw/paper/built-penetrations.js';
import { aBarrier, aFinding, aPenetration, aReport, onPenetration } from '../report/factories.js';
import { rules } from '../shipped-rules.js';

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

it('leaves no colour of paper in anything that is built, cut or patterned', async () => {
  const sections = rules.systems.flatMap(({ id: system, details }) =>
    details.map(({ id: detail }) => drawSection({ penetration: built({}, { system, detail, layers: 1 }), id: 'x' })),
  );
  const plan = await planCuts([{ id: 'P1', length: 700, width: 200, count: 3 }], [ROLL], { effort: 100 });
  const drawn = [...sections, ...drawCuttingPlan({ plan, title: 'Blanket' })];
  expect(drawn.length).toBeGreaterThan(5);
  for (const svg of drawn) expect(pageSvg(svg)).not.toMatch(/="#[0-9a-f]{3,8}"/i);
});

const ROLL: Stock = { id: 'blanket', form: 'roll', length: 7500, width: 610, kerf: 0 };
