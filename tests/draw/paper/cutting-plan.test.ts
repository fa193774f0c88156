import { describe, expect, it } from 'vitest';
import { drawCuttingPlan, PLAN_HEIGHT, PLAN_WIDTH } from '../../../src/draw/paper/cutting-plan.js';
import { type CutPart, type CuttingOptions, planCuts, type Stock } from '../../../src/quantify/cutting/index.js';
import { listOf, wholeBy } from '../../quantify/cutting/instances.js';
import { faultsOf, textsOf } from './svg-texts.js';

const PAPER = { width: PLAN_WIDTH, height: PLAN_HEIGHT };
const BAR: Stock = { id: 'angle 40 × 4', form: 'bar', length: 6000, kerf: 3 };
const BOARD: Stock = { id: 'board', form: 'sheet', length: 2500, width: 1200, kerf: 4 };
const ROLL: Stock = { id: 'blanket', form: 'roll', length: 7500, width: 610, kerf: 0 };

async function drawn(parts: readonly CutPart[], stock: Stock, options: CuttingOptions = {}): Promise<string[]> {
  const plan = await planCuts(parts, [stock], { effort: 100, ...options });
  return drawCuttingPlan({ plan, title: `All of ${stock.id}` });
}

const words = (pages: readonly string[]): string[] => pages.flatMap((page) => textsOf(page).map(({ text }) => text));

/** Which ways the lines of hatches go. */
function slopes(page: string): Set<string> {
  const lines = [...page.matchAll(/M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)/g)].map((m) => m.slice(1).map(Number));
  const sloped = lines.filter(([x, y, u, v]) => x !== u && y !== v);
  return new Set(sloped.map(([x, y, u, v]) => ((u! - x!) * (v! - y!) < 0 ? 'rising' : 'falling')));
}

describe('a cutting plan on paper', () => {
  it('has no text over another and none that leaves the sheet, and names every part', async () => {
    for (let seed = 1; seed <= 12; seed++) {
      const whole = wholeBy(seed);
      const stock = [BAR, BOARD, ROLL][seed % 3]!;
      // From slivers that no number goes into to whole pieces of stock, with names short and long.
      const parts = listOf(whole(1, 14), (i): CutPart => {
        const id = `${'long name '.repeat(seed % 5 === 0 ? 9 : 0)}P${i}`;
        const length = whole(20, whole(30, 2500));
        return { id, length, count: whole(1, 4), ...(stock === BAR ? {} : { width: whole(15, whole(20, 610)) }) };
      });
      const pages = await drawn(parts, stock, { keep: { length: 300, width: 100 } });
      for (const page of pages) expect(faultsOf(page, PAPER), `seed ${seed}`).toEqual([]);
      const texts = words(pages).join('\n');
      for (const { id } of parts) expect(texts, `seed ${seed}`).toContain(id.slice(0, 20));
    }
  });

  it('draws to one scale that is written beside it', async () => {
    const [page] = await drawn([{ id: 'P', length: 1250, width: 600, count: 1 }], BOARD);
    // 2500 mm in 151 mm of paper: 1:20.
    expect(page).toContain('width="125" height="60"');
    expect(page).toContain('width="62.5" height="30"');
    expect(words([page!])).toContain('1:20, all in mm; crossed: scrap');
    expect(words([page!])).toContain('P');
    expect(words([page!])).toContain('1250 × 600');
  });

  it('says how often each pattern is cut, what is bought and what is proven', async () => {
    const pages = await drawn([{ id: 'P', length: 2000, count: 30 }], { ...BAR, kerf: 0 });
    const texts = words(pages);
    expect(texts).toContain('10 ×');
    expect(texts.join(' ')).toContain('10 bars of 6000 mm; 0 % waste. No plan buys less');
  });

  it('hatches scrap and what is kept differently, and says how large the latter is', async () => {
    const [page] = await drawn([{ id: 'P', length: 3000, count: 1 }], BAR, { keep: { length: 500 } });
    expect(slopes(page!)).toEqual(new Set(['rising']));
    expect(words([page!])).toContain('keep 2997');
    const [scrap] = await drawn([{ id: 'P', length: 3000, count: 1 }], BAR);
    expect(slopes(scrap!)).toEqual(new Set(['rising', 'falling']));
    // As lines: patterns are printed as pictures.
    expect(page).not.toContain('<pattern');
  });

  it('goes on on further sheets of paper', async () => {
    const whole = wholeBy(3);
    const parts = listOf(20, (i) => ({ id: `P${i}`, length: whole(600, 1400), width: whole(500, 1000), count: 2 }));
    const pages = await drawn(parts, BOARD);
    expect(pages.length).toBeGreaterThan(2);
    expect(words(pages.slice(0, 1)).join()).toContain(`sheet 1 of ${pages.length}`);
  });

  it('draws nothing of nothing', async () => {
    expect(await drawn([], BAR)).toEqual([]);
  });
});
