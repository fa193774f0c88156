/** What a take-off counts, and how it is bought: the words that briefs, quantities and reports share. */

export const MATERIAL_KINDS = [
  'blanket',
  'board',
  'localBuildUp',
  'packing',
  'sealant',
  'angle',
  'screw',
  'pin',
  'strap',
  'boardCollar',
  'tape',
  'accessPanel',
  'rod',
  'bearer',
] as const;
export type MaterialKind = (typeof MATERIAL_KINDS)[number];

/** How it is bought: by the piece, or by what all pieces are together. */
export const MEASURES = ['pieces', 'm', 'm2', 'l', 'kg'] as const;
export type Measure = (typeof MEASURES)[number];
