import type { Minutes, Rating } from '../model.js';

export type Criterion = 'loadbearing' | 'integrity' | 'insulation';

/** What carries the text. The same letters mean different things on different objects. */
export interface RatingContext {
  readonly object: 'barrier' | 'duct' | 'damper' | 'door' | 'pipeSeal' | 'cable' | 'other';
  /** Left out: not known. */
  readonly loadBearing?: boolean;
  /** Closes a room off. Left out: true for a barrier, else not known. */
  readonly separating?: boolean;
  /** A number without a unit is hours. Only for the damper property FireResistanceRating, whose IFC text says so. */
  readonly unit?: 'hours';
}

/** What a text says; where it stood (`from`) is for the caller to add. */
export type ParsedRating = Omit<Rating, 'from'> & {
  /** Parts of the class beyond its minutes, in the order of {@link FLAGS}. */
  readonly flags: readonly string[];
};

/** Every flag a rating can have. */
export const FLAGS = [
  'EI1', // insulation measured the strict way
  'EI2', // insulation measured the common way
  'E300', // EN 13501-4 smoke control: tested at 300 °C, not on the standard fire curve
  'E600', // the same at 600 °C
  'P', // circuit integrity of a cable: says nothing about separation
  'W', // radiation
  'M', // impact
  've', // vertical (a duct's run; the element a damper sits in)
  'ho', // horizontal
  'i>o', // fire inside
  'o>i', // fire outside
  'S', // smoke leakage
  'Sa', // door smoke leakage, ambient
  'S200', // door smoke leakage, 200 °C
  'S500', // smoke control: under-pressure in Pa
  'S1000',
  'S1500',
  'single', // smoke control of one compartment
  'multi', // smoke control of several compartments
  'C', // self-closing
  'C0',
  'C1',
  'C2',
  'C3',
  'C4',
  'C5',
  'U/U', // pipe end inside / outside the furnace: uncapped or capped
  'U/C',
  'C/U',
  'C/C',
] as const;

export type Flag = (typeof FLAGS)[number];

export function isFlag(text: string): text is Flag {
  return (FLAGS as readonly string[]).includes(text);
}

/** What one form of the grammar makes of a text. `duration` is set where the text gives one number without criteria. */
export interface Reading {
  readonly loadbearing: Minutes;
  readonly integrity: Minutes;
  readonly insulation: Minutes;
  readonly duration: number | null;
  readonly flags: readonly Flag[];
}
