/** What the state texture says of each element: one byte for how it is drawn, one for its hatch. */
export const STATE = { hidden: 0, plain: 1, own: 2, selected: 3, outlined: 4 } as const;

/** Hatches by what they mean; ratings as in the papers, protection by what it is made of. */
export const PATTERN = {
  ...{ none: 0, wide: 1, medium: 2, close: 3, dotted: 4 },
  ...{ wavy: 5, crossed: 6, diagonal: 7 },
} as const;
export type Pattern = (typeof PATTERN)[keyof typeof PATTERN];
