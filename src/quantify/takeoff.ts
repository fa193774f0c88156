/**
 * The take-off: what is bought, cut and fixed, where. Types alone; made by `quantify`, printed by reports.
 *
 * Pieces are counted once, at a penetration or along a run; every sum is a sum of these. Units: pieces in mm, together in m,
 * m², l, kg, h. null: it does not apply, or it is not known; what is not known stands in `uncounted` with the reason.
 */

import type { MaterialKind, Measure } from '../material-kinds.js';
import type { ElementRef, RuleStatus, Side, Storey } from '../model.js';
import type { CuttingPlan } from './cutting/index.js';

export * from '../material-kinds.js';

/** One line of what is bought. */
export interface Material {
  /** Made of what tells it from others, so that it stays the same between reports. */
  readonly id: string;
  readonly kind: MaterialKind;
  /** For people, e.g. `Illustrative blanket A, layer of 38 mm, 128 kg/m³`. */
  readonly name: string;
  readonly measure: Measure;
  /** The tested system that asks for it; null: the project does. */
  readonly testedSystem: string | null;
  /** Of that document. */
  readonly status: RuleStatus | null;
}

/** What belongs together at one place: exactly one of `penetration` and `run` is given. */
export interface TakeoffPlace {
  readonly penetration: string | null;
  readonly run: string | null;
  /** GlobalId; null: the models do not say. */
  readonly storey: string | null;
  /** Name of the duct's system. */
  readonly system: string | null;
}

/** Quantities of all pieces together. Sums of items are sums of these. */
export interface Quantities {
  readonly pieces: number;
  readonly lengthM: number | null;
  readonly areaM2: number | null;
  readonly volumeL: number | null;
  readonly massKg: number | null;
  /** Of what is built in, without waste, at the prices of the brief; null: it gives none for this. */
  readonly cost: number | null;
  /** By the rates of the brief. */
  readonly hours: number | null;
  /** Of these hours, in the same currency. */
  readonly labourCost: number | null;
}

/** Decimals that items are rounded to, once, so that sums are exact: 1 mm, 1 cm², 0.001 l, 1 g, 0.01 of the currency. */
export const DECIMALS = {
  pieces: 0,
  lengthM: 3,
  areaM2: 4,
  volumeL: 3,
  massKg: 3,
  cost: 2,
  hours: 3,
  labourCost: 2,
} as const satisfies { readonly [Q in keyof Quantities]: number };
export type Quantity = keyof typeof DECIMALS;
export const QUANTITIES = Object.keys(DECIMALS) as unknown as readonly [Quantity, ...Quantity[]];

/** The quantity that a material is bought by. */
export const QUANTITY_OF = {
  pieces: 'pieces',
  m: 'lengthM',
  m2: 'areaM2',
  l: 'volumeL',
  kg: 'massKg',
} as const satisfies { readonly [M in Measure]: Quantity };

/** Equal pieces of one material at one place. */
export interface TakeoffItem extends TakeoffPlace, Quantities {
  /** `Q-00001`, by place and then in the order of the work. */
  readonly id: string;
  /** Of `Material.id`. */
  readonly material: string;
  /** The piece of ductwork that it goes on; null: it belongs to the penetration as a whole. */
  readonly element: ElementRef | null;
  /** Which one it is, in words, e.g. `layer 2, strips round the duct`. */
  readonly what: string;
  /** Of blanket and board along a run. */
  readonly layer?: TakeoffLayer;
  /** Of one piece as it is cut. */
  readonly length: number | null;
  readonly width: number | null;
  /** By which formula it was counted: a key of FORMULAS. */
  readonly formula: string;
  /** Clause or table of the tested system's document, or what else says it, e.g. `common practice, no source`. */
  readonly source: string;
}

export interface TakeoffLayer {
  /** From the inside: 1 is the first. */
  readonly number: number;
  /** mm, as fixed. */
  readonly thickness: number;
  /** The side that it leaves out, since a barrier stands tight against it. */
  readonly bare: Side | null;
}

/** Something that is needed and could not be counted, or of which a quantity is not known. */
export interface Uncounted extends TakeoffPlace {
  /** null: all that is needed at the place. */
  readonly material: MaterialKind | null;
  readonly what: string;
  /** Which fact is missing, in words, and who could say it. */
  readonly because: string;
}

export const TOTALS_BY = ['penetration', 'run', 'storey', 'system', 'project'] as const;

/**
 * All items of one material in one place. A run's are those along it: what is built at barriers is the penetrations'.
 * A sum is of what is known; null: it is known of none, or does not apply.
 */
export interface TakeoffTotal extends Quantities {
  readonly by: (typeof TOTALS_BY)[number];
  /** Id of the penetration or run, GlobalId of the storey, name of the system; null: not known, or the project. */
  readonly id: string | null;
  readonly material: string;
  /** Of how many of the items a quantity is not known, so that its sum is "at least". */
  readonly unknownIn: readonly { readonly quantity: Quantity; readonly items: number }[];
}

/** How one material is cut from what is delivered. */
export interface MaterialCutting {
  readonly material: string;
  readonly parts: readonly CutPiece[];
  readonly plan: CuttingPlan;
}

/** Pieces of one size. */
export interface CutPiece {
  /** Its name on plans and lists, of this material alone: P1, P2, P3 from the largest on. */
  readonly part: string;
  readonly length: number;
  readonly width: number | null;
  readonly count: number;
  /** Of how many of them one piece of the items is made; more than 1 where no stock is so long. */
  readonly lengths: number;
  /** Ids of the items that they are for. */
  readonly items: readonly string[];
}

/** What is ordered. */
export interface Purchase {
  readonly material: string;
  /** e.g. `roll 7320 x 610`, `bar 6000`, `pack 600 ml`; null: by the quantity itself. */
  readonly unit: string | null;
  /** How many of them; of no unit the quantity in the material's measure. null: it is known of no item. */
  readonly amount: number | null;
  /** Of how many items it is not known, so that the amount is "at least". */
  readonly unknownIn: number;
  /** Of what is ordered: of stock whole units, whatever part of them is built in. */
  readonly cost: number | null;
}

/** null: none of it is known. */
export interface Sum {
  readonly sum: number | null;
  /** How many have no value, so that the sum is "at least". */
  readonly unknownIn: number;
}

/** All materials of the project together. */
export interface Costs {
  /** Of what is ordered, in whole units. */
  readonly ordered: Sum;
  /** Of what is built in, without waste: part of the above, never added to it. */
  readonly builtIn: Sum;
  readonly hours: Sum;
  /** Of these hours. */
  readonly labour: Sum;
}

/** Something that was taken for granted where neither the document nor the brief says it. */
export interface Allowance {
  /** Key of the brief that changes it, e.g. `choices.takeoff.kerf`. */
  readonly key: string;
  readonly value: number | string;
  readonly says: string;
  /** `brief`, or `common practice, no source`. */
  readonly from: string;
}

export interface Takeoff {
  readonly materials: readonly Material[];
  /** Of all models, from the lowest; of one that several models have, one stands for all. */
  readonly storeys: readonly Storey[];
  readonly items: readonly TakeoffItem[];
  readonly totals: readonly TakeoffTotal[];
  readonly uncounted: readonly Uncounted[];
  readonly cutting: readonly MaterialCutting[];
  readonly purchases: readonly Purchase[];
  readonly allowances: readonly Allowance[];
  /** Of the prices of the brief; null: it names none. */
  readonly currency: string | null;
  readonly costs: Costs;
}
