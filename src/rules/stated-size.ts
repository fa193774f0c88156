import type { DuctFacts } from '../model.js';

/** Sizes that property sets state, and how far they are off the geometry; null where that is not known. */
export function statedSize(duct: DuctFacts) {
  const { width, height, diameter } = duct.stated;
  const given = width !== null || height !== null || diameter !== null;
  return { ...duct.stated, given, difference: given ? statedDifference(duct) : null };
}

/**
 * Of the sheet where it is known, since a stated size says nothing of insulation. A section says not which of its sides
 * is called the width, so of both ways the nearer counts.
 */
function statedDifference(duct: DuctFacts): number | null {
  const { shape, stated, sectionFrom } = duct;
  // The insulation was told from the stated size, so that size can't be checked by what is left.
  if (duct.wall.insulation?.from === 'size') return null;
  const { width, height, diameter } = duct.sizes.sheet ?? duct;
  // What was taken from the properties can't be compared with them.
  if (sectionFrom === 'property' || shape === 'unknown') return null;
  if (shape === 'circular')
    return diameter !== null && stated.diameter !== null ? off(diameter, stated.diameter) : null;
  if (width === null || height === null) return null;
  const [a, b] = [stated.width, stated.height];
  if (a !== null && b !== null) {
    return Math.min(Math.max(off(width, a), off(height, b)), Math.max(off(width, b), off(height, a)));
  }
  // Of one side alone it is not known which it is, unless both are alike.
  const one = a ?? b;
  return one !== null && width === height ? off(width, one) : null;
}

const off = (a: number, b: number): number => Math.abs(a - b);
