/** Colours of drawings and snapshots, light theme; text and outcome colours are ≥ 4.6 : 1 on every ground. */
import type { Outcome } from '../model.js';

/** Red, green, blue, 0 to 255. */
export type Rgb = readonly [number, number, number];

const hex = (code: string): Rgb => {
  const value = Number.parseInt(code, 16);
  return [value >> 16, (value >> 8) & 255, value & 255];
};

/** `share` of `colour` over a ground. */
export const over = (colour: Rgb, share: number, ground: Rgb): Rgb => {
  const mixed = colour.map((c, i) => c * share + ground[i]! * (1 - share));
  return [mixed[0]!, mixed[1]!, mixed[2]!];
};

export const PAGE = hex('F6F5F1');
export const SHEET = hex('FFFFFF');
export const INK = hex('1F2426');
export const SECONDARY = hex('5A5F60');
export const EDGE = hex('7A7C78');

export const OUTCOME_COLOURS: { readonly [O in Outcome]: Rgb } = {
  failed: hex('B03E00'),
  cantTell: hex('5B4BC4'),
  passed: hex('083F3C'),
  inapplicable: hex('6A6862'),
  untested: hex('6A6862'),
};

/** `B03E00`, as formats write it. */
export const hexCode = (colour: Rgb): string =>
  colour
    .map((c) => Math.round(c).toString(16).padStart(2, '0'))
    .join('')
    .toUpperCase();
