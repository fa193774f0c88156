/** Items before they are numbered and priced: what is counted at penetrations and along runs has this form. */
import type { ElementRef } from '../model.js';
import type { FormulaName } from './formulas/words.js';
import type { Material, Quantities, TakeoffLayer, TakeoffPlace, Uncounted } from './takeoff.js';

export interface Draft extends Omit<Quantities, 'cost' | 'hours' | 'labourCost'> {
  readonly place: TakeoffPlace;
  readonly material: Material;
  readonly element: ElementRef | null;
  readonly what: string;
  readonly layer?: TakeoffLayer;
  readonly length: number | null;
  readonly width: number | null;
  readonly formula: FormulaName;
  readonly source: string;
}

/** What was counted, and what could not be. */
export interface Counted {
  readonly drafts: readonly Draft[];
  readonly uncounted: readonly Uncounted[];
}

export const COUNTED_NOTHING: Counted = { drafts: [], uncounted: [] };

export const countedTogether = (all: readonly Counted[]): Counted => ({
  drafts: all.flatMap(({ drafts }) => drafts),
  uncounted: all.flatMap(({ uncounted }) => uncounted),
});

/** Equal pieces as they are cut. Lengths in mm, density in kg/m³. */
export interface Pieces {
  readonly pieces: number;
  readonly length?: number | undefined;
  readonly width?: number | undefined;
  readonly thickness?: number | undefined;
  readonly density?: number | undefined;
  /** kg/m, of bars. */
  readonly perMetre?: number | undefined;
}

/**
 * What equal pieces are together: m = n·l, m² = n·l·w, kg = n·l·w·t·ρ, or n·l·m' of bars. Rounded here and nowhere else,
 * so that sums of items are exact: 1 mm, 1 cm², 1 g.
 */
export function quantitiesOf({ pieces, length, width, thickness, density, perMetre }: Pieces) {
  const lengthM = length === undefined ? undefined : (pieces * length) / 1000;
  const areaM2 = lengthM === undefined || width === undefined ? undefined : (lengthM * width) / 1000;
  const volume = areaM2 === undefined || thickness === undefined ? undefined : (areaM2 * thickness) / 1000;
  const byVolume = volume === undefined || density === undefined ? undefined : volume * density;
  const byLength = lengthM === undefined || perMetre === undefined ? undefined : lengthM * perMetre;
  return {
    pieces,
    length: length === undefined ? null : Number(length.toFixed(1)),
    width: width === undefined ? null : Number(width.toFixed(1)),
    lengthM: roundedTo(lengthM, 3),
    areaM2: roundedTo(areaM2, 4),
    volumeL: null,
    massKg: roundedTo(byVolume ?? byLength, 3),
  };
}

export const roundedTo = (value: number | undefined, decimals: number): number | null =>
  value === undefined ? null : Number(value.toFixed(decimals));
