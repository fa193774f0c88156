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
  round: {
    formula: 'n = max(3, ⌈U / s⌉)',
    symbols: 'U length round the duct, s greatest distance between centres, mm',
    source: 'arithmetic',
  },
  wrap: {
    formula: 'l = U_k + max(p, 4c), n = ⌈(L − o) / (w − o)⌉',
    symbols:
      'U_k round the outside of layer k, p allowance of a piece, c of a corner, L length that is covered, w width of a strip, o overlap, mm',
    source: 'arithmetic, with the allowances of the tested system',
  },
  frame: {
    formula: 'mitred: w + 2b and h + 2b; butted: w + 2b and h; two of each at a face',
    symbols: 'w, h outside of the duct, b width of the bar or strip, mm',
    source: 'arithmetic',
  },
  bentBar: {
    formula: 'L = U + 2π·e, e = (a² + a·t − t²) / (2(2a − t))',
    symbols: 'U length round the duct, e from the duct to the centroid of the angle, a leg, t thickness, mm',
    source: 'geometry: a bar bent round keeps the length along its centroid',
  },
  halfCollars: {
    formula: 'two halves, each D + 2b long and D / 2 + b wide, at a face',
    symbols: 'D diameter, b width of the collar, mm',
    source: 'arithmetic: a square collar with a round hole, parted in the middle',
  },
  packing: {
    formula: 'V = A·d, d = D − n·s',
    symbols:
      'A opening less all that passes it, mm²; D thickness of the barrier, n sealed faces, s depth of their seals, mm',
    source: 'arithmetic',
  },
  seal: {
    formula: 'V = n·A·s',
    symbols: 'A opening less all that passes it, mm²; n faces, s depth of the seal, mm',
    source: 'arithmetic',
  },
  bead: {
    formula: 'V = n·L·b·d',
    symbols: 'n faces, L length of the bead, b its width, d its depth, mm',
    source: 'arithmetic',
  },
  fillet: {
    formula: 'V = n·L·a² / 2',
    symbols: 'n faces, L length of the bead, a legs of the fillet, mm',
    source: 'arithmetic',
  },
} as const satisfies { readonly [name: string]: FormulaWords };

export type FormulaName = keyof typeof FORMULAS;
