/** How pieces are cut from what is delivered. Lengths in mm. */

export interface Stock {
  readonly id: string;
  readonly form: 'bar' | 'roll' | 'sheet';
  readonly length: number;
  /** Of rolls and sheets. */
  readonly width?: number | undefined;
  /** What a cut takes away. */
  readonly kerf: number;
}

export interface CutPart {
  readonly id: string;
  readonly length: number;
  readonly width?: number | undefined;
  readonly count: number;
  readonly mayTurn?: boolean | undefined;
}

export interface CuttingPlan {
  readonly stock: Stock;
  readonly patterns: readonly CuttingPattern[];
  /** Pieces of stock. */
  readonly used: number;
  /** No plan needs fewer. */
  readonly lowerBound: number;
  /** (used − lowerBound) / lowerBound; 0: proven best. */
  readonly gap: number;
  /** Part of what is bought that is neither a piece nor an offcut worth keeping. */
  readonly waste: number;
  /** How it was proven, in words. */
  readonly method: string;
}

/** Equal pieces of stock cut alike. */
export interface CuttingPattern {
  readonly times: number;
  readonly cuts: readonly (Rectangle & { readonly part: string; readonly turned: boolean })[];
  /** Worth keeping. */
  readonly offcuts: readonly Rectangle[];
}

/** From a corner of the stock; of bars y is 0 and no width is given. */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width?: number | undefined;
}
