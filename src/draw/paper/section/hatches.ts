/** Hatches of what is built, told apart in black and white; steel and sealant are too thin for a hatch and are solid. */
import { INK, PAGE, RAISED, SHEET } from '../palette.js';
import { element } from '../svg.js';
import type { Hatch } from './built.js';

/** Common drawing practice, no source. */
const LINES: {
  readonly [H in Exclude<Hatch, 'steel' | 'sealant'>]: { readonly size: readonly [number, number]; readonly d: string };
} = {
  packing: { size: [2, 2], d: 'M0.2 0.7a0.5 0.5 0 1 1 0.7 0.2M1.2 1.8a0.5 0.5 0 1 1 0.6 -0.3' },
  wavy: { size: [2.4, 1.2], d: 'M0 0.6q0.6 -0.8 1.2 0t1.2 0' },
  crossed: { size: [1.4, 1.4], d: 'M0 0L1.4 1.4M1.4 0L0 1.4' },
  diagonal: { size: [1.6, 1.6], d: 'M-0.4 0.4L0.4 -0.4M0 1.6L1.6 0M1.2 2L2 1.2' },
  board: { size: [0.9, 0.9], d: 'M-0.2 0.2L0.2 -0.2M0 0.9L0.9 0M0.7 1.1L1.1 0.7' },
};
const GROUNDS: { readonly [H in keyof typeof LINES]: string } = {
  packing: PAGE,
  wavy: SHEET,
  crossed: SHEET,
  diagonal: SHEET,
  board: RAISED,
};

export const builtPatterns = (id: string): string =>
  (Object.keys(LINES) as (keyof typeof LINES)[])
    .map((hatch) => {
      const { size, d } = LINES[hatch];
      const [width, height] = size;
      return element(
        'pattern',
        { id: `${hatch}-${id}`, width, height, patternUnits: 'userSpaceOnUse' },
        element('path', { d: `M0 0H${width}V${height}H0Z`, fill: GROUNDS[hatch] }),
        element('path', { d, stroke: INK, 'stroke-width': 0.13, fill: 'none' }),
      );
    })
    .join('');

export const fillOf = (hatch: Hatch, id: string): string =>
  hatch === 'steel' || hatch === 'sealant' ? INK : `url(#${hatch}-${id})`;
