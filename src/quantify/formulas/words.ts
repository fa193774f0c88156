/** The formulas that pieces are counted by, as people read them; each is one function beside this file. */

export interface FormulaWords {
  readonly formula: string;
  /** Symbols with their units. */
  readonly symbols: string;
  readonly source: string;
}

export const FORMULAS = {
  row: {
    formula: 'n = ⌈(L − 2e) / s⌉ + 1',
    symbols: 'L length of the line, e from its ends, s greatest distance between centres, mm',
    source: 'arithmetic; both ends are fixed',
  },
} as const satisfies { readonly [name: string]: FormulaWords };

export type FormulaName = keyof typeof FORMULAS;
