/** What is cut from what, and the plan of it. Lengths in mm, areas in mm²; x along a piece of stock, y across it. */

/** One kind of stock on offer. */
export interface Stock {
  readonly id: string;
  readonly form: 'bar' | 'roll' | 'sheet';
  readonly length: number;
  /** Of rolls and sheets. */
  readonly width?: number;
  /** What a cut takes away. */
  readonly kerf: number;
  /** That many pieces are there already and cost nothing. Left out: as many as are needed can be bought. */
  readonly onHand?: number;
}

/** A part without a width has that of the roll, or is cut from a bar. */
export interface CutPart {
  readonly id: string;
  readonly length: number;
  readonly width?: number;
  readonly count: number;
  /** Whether its length may lie across the stock. */
  readonly mayTurn?: boolean;
}

export interface CuttingOptions {
  /** The smallest offcut that is worth keeping; none is kept when left out. A width is asked of rolls and sheets only. */
  readonly keep?: { readonly length: number; readonly width?: number };
  /** A plan whose proven gap is no larger is good enough, so that no better one is looked for; 0 when left out. */
  readonly enough?: number;
  /** Millions of steps of arithmetic that the search may take, so that the same input gives the same plan anywhere. */
  readonly effort?: number;
  readonly signal?: AbortSignal;
  /** Called between steps with what is bought and what is proven by then, in mm or mm². */
  readonly onProgress?: (bought: number, lowerBound: number) => void;
}

export interface Cut {
  /** Id of the part. */
  readonly part: string;
  readonly x: number;
  readonly y: number;
  /** As it lies: along the stock, and across it (not of bars). */
  readonly length: number;
  readonly width?: number;
  readonly turned: boolean;
}

export interface Offcut {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width?: number;
  /** Large enough to be kept by the plan's options. */
  readonly kept: boolean;
}

/** Equal pieces of stock that are cut alike. */
export interface CutPattern {
  readonly stock: Stock;
  readonly times: number;
  readonly cuts: readonly Cut[];
  readonly offcuts: readonly Offcut[];
}

/** Which plans can't buy less than the lower bound. */
export type PlanClass = 'every plan' | 'plans of three cutting stages';

export interface CuttingPlan {
  readonly patterns: readonly CutPattern[];
  /** Pieces of stock that are cut, by their id, in the order that they are on offer in; none with 0 pieces. */
  readonly used: readonly { readonly stock: Stock; readonly pieces: number }[];
  /** Length (bars, and parts as wide as their roll) or area of what is bought; what is on hand costs nothing. */
  readonly bought: number;
  /** No plan of the class buys less. */
  readonly lowerBound: number;
  readonly boundHoldsFor: PlanClass;
  /** (bought − lowerBound) / lowerBound; 0 is proven best. */
  readonly gap: number;
  /** Share of all stock cut, bought or on hand, that is neither part nor kept offcut: kerfs and scrap. 0 of nothing. */
  readonly waste: number;
  /** How the bound was proven, for people. */
  readonly method: string;
}

/** What can't be planned, in one line for people. */
export class CuttingError extends Error {
  override name = 'CuttingError';
}
