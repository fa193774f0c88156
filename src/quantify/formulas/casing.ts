/** Panels of a casing of boards round a duct. Lengths in mm. */
import { roundedUp } from './counting.js';
import type { RollSize } from './wrap.js';

export interface Panels {
  readonly side: 'over and under' | 'beside';
  readonly pieces: number;
  /** Across the duct. */
  readonly width: number;
}

/**
 * Layer k of boards of thickness t on a duct a × b: two of a + 2k·t over and under, which lie on two of b + 2(k − 1)·t beside
 * it. Arithmetic.
 */
export const casingPanels = (
  { width: a, height: b }: { readonly width: number; readonly height: number },
  layer: number,
  thickness: number,
): Panels[] => [
  { side: 'over and under', pieces: 2, width: a + 2 * layer * thickness },
  { side: 'beside', pieces: 2, width: b + 2 * (layer - 1) * thickness },
];

export interface PanelCut {
  readonly pieces: number;
  readonly length: number;
  readonly width: number;
}

/**
 * One panel of length L and width p out of sheets: ⌈L / s⌉ · ⌈p / q⌉ pieces that butt, s and q the sides of the sheet, the
 * way that takes fewer; the last along it is only as long as is left. Arithmetic.
 */
export function panelsFromSheet(length: number, width: number, sheet: RollSize): PanelCut[] {
  if (length <= 0 || width <= 0) return [];
  const [way] = [
    { along: sheet.length, across: sheet.width },
    { along: sheet.width, across: sheet.length },
  ]
    .map((one) => ({ along: one.along, n: roundedUp(length / one.along), m: roundedUp(width / one.across) }))
    // Of equals the one without a joint along the duct.
    .sort((a, b) => a.n * a.m - b.n * b.m || a.m - b.m);
  const { along, n, m } = way!;
  const rest = length - (n - 1) * along;
  const wide = width / m;
  if (Math.abs(rest - along) < 1e-6 || n === 1)
    return [{ pieces: n * m, length: n === 1 ? length : along, width: wide }];
  return [
    { pieces: (n - 1) * m, length: along, width: wide },
    { pieces: m, length: rest, width: wide },
  ];
}
