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
  strip: {
    formula: 'l = U_k + max(p, 4c), n = ⌈(L − o) / (w − o)⌉, m = ⌈(l − o) / (R − o)⌉',
    symbols:
      'U_k = 2(a + b) + 8k·t, π(d + 2k·t) or, against a slab, a + 2b + 4k·t round the outside of layer k; p allowance of a piece, c of a corner; L length that is covered and o overlaps with the next piece; n strips of width w, the last as wide as is left, each of m equal pieces from a roll of length R; mm. Mass of the pieces as they are cut, overlaps too',
    source: 'arithmetic, with the allowances of the tested system; the roll that least of is taken from',
  },
  developed: {
    formula: 'A_k = A·U_k / U · (1 + f), l = A_k / (n·w)',
    symbols:
      'A developed outer surface, mm²; U round its ends and U_k round layer k on them, mm; f allowance; n lengths l of a roll or sheet of width w, mm',
    source: 'geometry; exact of bends but for the allowance, which is common practice, no source',
  },
  casing: {
    formula: 'over and under a + 2k·t, beside b + 2(k − 1)·t, two of each; ⌈L / s⌉·⌈p / q⌉ pieces of a panel',
    symbols: 'a, b duct, k layer of thickness t, L length, p width of a panel, s and q sides of the sheet, mm',
    source: 'arithmetic; boards butt',
  },
  pinGrid: {
    formula: 'n = ⌈L / s⌉·⌈b / s⌉ on each face',
    symbols: 'L length, b breadth of the face, s greatest distance between centres, mm',
    source: 'arithmetic; half a spacing from the edges, where the next face or piece goes on with the grid',
  },
  pinRings: {
    formula: 'n = ⌈L / s⌉ · max(3, ⌈U / s⌉)',
    symbols: 'L length, U round the duct, s greatest distance between centres, mm',
    source: 'arithmetic; half a spacing from the ends, where the next piece goes on',
  },
  pinSurface: {
    formula: 'n = ⌈A / s²⌉',
    symbols: 'A developed outer surface, mm²; s greatest distance between centres, mm',
    source: 'arithmetic',
  },
  straps: {
    formula: 'n = ⌈(L − Σe) / s⌉ + 1, and one more on each overlap where that is stated; l = U_n + o',
    symbols:
      'L length, e kept clear of the face of a barrier, or s/2 at any other end; s greatest distance between straps; U_n round the outermost layer, not pressed in; o overlap of the strap on itself, mm',
    source: 'arithmetic',
  },
  tape: {
    formula: 'L_t = j·U_k + L',
    symbols:
      'j joints round layer k, U_k round its outside, L length along the seam that closes its strips, mm; every layer is taped, since the document names none',
    source: 'arithmetic',
  },
  supports: {
    formula: 'n = ⌈L / s⌉ + 1, and the rods of each',
    symbols: 'L straight length, s governing distance between supports, mm; as in the support schedule',
    source: 'arithmetic, with the spacing of the support schedule',
  },
  each: {
    formula: 'one by one',
    symbols: 'as found in the models, or as proposed',
    source: 'the models and the checks',
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
