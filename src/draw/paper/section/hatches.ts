/**
 * Hatches of what is built, told apart in black and white; steel and sealant are too thin for one and are solid. Drawn as
 * lines and not as patterns, which browsers print as pictures.
 */
import { bounds } from '../../../geometry/polygon.js';
import type { Polygon } from '../../../model.js';
import { INK, PAGE, RAISED, SHEET } from '../palette.js';
import { crossings, stripes } from '../stripes.js';
import { coordinate, element } from '../svg.js';
import type { Hatch } from './built.js';

export const GROUNDS: { readonly [H in Hatch]: string } = {
  packing: PAGE,
  wavy: SHEET,
  crossed: SHEET,
  diagonal: SHEET,
  board: RAISED,
  steel: INK,
  sealant: INK,
};

/** Millimetres on paper between lines. Common drawing practice, no source. */
const FINE = 0.65;
const WIDE = 1.15;
const ROW = 1.2;
const LOOP = 1.4;

/** @param outline on paper, convex */
export function hatchLines(outline: Polygon, hatch: Hatch): string {
  const d = LINES[hatch](outline).join('');
  return d === '' ? '' : element('path', { d, stroke: INK, 'stroke-width': 0.13, fill: 'none' });
}

const rising = (outline: Polygon, spacing: number) => stripes(outline, [Math.SQRT1_2, Math.SQRT1_2], spacing);
const falling = (outline: Polygon, spacing: number) => stripes(outline, [Math.SQRT1_2, -Math.SQRT1_2], spacing);
const LINES: { readonly [H in Hatch]: (outline: Polygon) => readonly string[] } = {
  packing: (outline) => rows(outline, LOOP, (from, to, y, i) => loops(from + (i % 2) * 0.6, to, y)),
  wavy: (outline) => rows(outline, ROW, waves),
  crossed: (outline) => [...rising(outline, WIDE), ...falling(outline, WIDE)],
  diagonal: (outline) => rising(outline, WIDE),
  board: (outline) => rising(outline, FINE),
  steel: () => [],
  sealant: () => [],
};

/** Level rows that keep clear of the edges. */
function rows(
  outline: Polygon,
  spacing: number,
  row: (from: number, to: number, y: number, i: number) => string,
): string[] {
  const { min, max } = bounds([outline]);
  const count = Math.max(1, Math.floor((max[1] - min[1]) / spacing));
  const first = (min[1] + max[1] - (count - 1) * spacing) / 2;
  return Array.from({ length: count }, (_, i) => {
    const y = first + i * spacing;
    const [a, b] = crossings(outline, [0, 1], y);
    return a && b ? row(Math.min(a[0], b[0]), Math.max(a[0], b[0]), y, i) : '';
  });
}

function waves(from: number, to: number, y: number): string {
  const half = 1.2;
  const count = Math.floor((to - from) / half);
  if (count < 1) return '';
  const start = (from + to - count * half) / 2;
  return `M${coordinate(start)} ${coordinate(y)}q.6-.8 1.2 0${'t1.2 0'.repeat(count - 1)}`;
}

function loops(from: number, to: number, y: number): string {
  const size = 0.8;
  const count = Math.floor((to - from - size) / LOOP) + 1;
  const all = Array.from({ length: Math.max(0, count) }, (_, i) => coordinate(from + 0.2 + i * LOOP));
  return all.map((x) => `M${x} ${coordinate(y)}a.3.3 0 1 1 .5.1`).join('');
}
