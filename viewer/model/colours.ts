/** The page's colours, read from where the canvas stands: the palette is the page's own, light or dark. */
import type { Outcome } from '../../src/model.js';
import { OUTCOME_COLOUR } from '../parts/mark.js';

/** Red, green, blue, 0 to 1, as the screen has them. */
export type Rgb = readonly [number, number, number];

export interface Colours {
  readonly page: Rgb;
  readonly sheet: Rgb;
  readonly ink: Rgb;
  readonly secondary: Rgb;
  readonly rule: Rgb;
  readonly accent: Rgb;
  readonly outcomes: { readonly [O in Outcome]: Rgb };
}

export function readColours(probe: HTMLElement): Colours {
  const read = (colour: string): Rgb => {
    probe.style.setProperty('color', colour);
    return rgbOf(getComputedStyle(probe).color);
  };
  const colours = {
    ...{ page: read('var(--page)'), sheet: read('var(--sheet)'), ink: read('var(--ink)') },
    ...{ secondary: read('var(--secondary)'), rule: read('var(--rule)'), accent: read('var(--accent)') },
    outcomes: {
      ...{ failed: read(OUTCOME_COLOUR.failed), cantTell: read(OUTCOME_COLOUR.cantTell) },
      ...{ passed: read(OUTCOME_COLOUR.passed), inapplicable: read(OUTCOME_COLOUR.inapplicable) },
      untested: read(OUTCOME_COLOUR.untested),
    },
  };
  probe.style.removeProperty('color');
  return colours;
}

/** @param text as browsers compute colours: `rgb(31, 36, 38)` */
export function rgbOf(text: string): Rgb {
  const [r = 0, g = 0, b = 0] = (text.match(/[\d.]+/g) ?? []).map(Number);
  return text.startsWith('color(') ? [r, g, b] : [r / 255, g / 255, b / 255];
}

/** `share` of one colour over another. */
export const over = (colour: Rgb, share: number, ground: Rgb): Rgb => [
  colour[0] * share + ground[0] * (1 - share),
  colour[1] * share + ground[1] * (1 - share),
  colour[2] * share + ground[2] * (1 - share),
];
