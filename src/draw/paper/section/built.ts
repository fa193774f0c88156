/** What a tested detail builds, as it lies in the cut: outlines in millimetres along and across the duct. */
import type { Polygon, Vec2 } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import type { Cut } from './cut.js';
import { drawnParts, drawnProtection } from './parts.js';
import { type Face, Places } from './places.js';
import { sheetInset, sizesOf } from './sizes.js';

export type Hatch = 'packing' | 'sealant' | 'steel' | 'board' | 'wavy' | 'crossed' | 'diagonal';

export interface Shape {
  readonly hatch: Hatch;
  readonly outline: Polygon;
}

/** What is seen of a part, and where its numbers point to; there may be nothing to see of it. */
export interface Seen {
  readonly shapes: readonly Shape[];
  readonly targets: readonly Vec2[];
}

export interface Drawn extends Seen {
  /** Place in the order of the work; `protection`: what goes along the duct. */
  readonly part: number | 'protection';
}

export interface Built {
  readonly drawn: readonly Drawn[];
  /** On which faces, as they lie along the duct on paper: -1 the earlier. */
  readonly faces: readonly Face[];
  /** Whether nothing tells which face a detail of one face is built on. */
  readonly isFaceOpen: boolean;
  /** How far off the duct's outline frames begin. */
  readonly base: number;
  /** How far along the duct from a face, and across from its side, anything is built. */
  readonly reach: { readonly along: number; readonly across: number };
  /** Its length along the duct, where it ends from the face and across from the duct; null: none of known length. */
  readonly buildUp: { readonly length: number; readonly end: number; readonly outside: number } | null;
}

export function builtIn(p: ReportPenetration, cut: Cut): Built {
  const { chosen } = p.treatment;
  const where = builtFaces(p, cut);
  if (!chosen || !cut.duct) return { ...where, drawn: [], base: 0, reach: { along: 0, across: 0 }, buildUp: null };
  const sizes = sizesOf(chosen, cut, sheetInset(p));
  const places = new Places(cut, cut.duct, where.faces, sizes.base);
  const { base, reach, buildUp } = sizes;
  return {
    ...{ ...where, base, reach, buildUp },
    drawn: [drawnProtection(chosen, sizes, places), ...drawnParts(chosen, sizes, places)],
  };
}

/** A detail of one face stands on the one that is not in a shaft. */
function builtFaces({ faces, treatment }: ReportPenetration, { sense }: Cut): Pick<Built, 'faces' | 'isFaceOpen'> {
  if (treatment.chosen?.faces !== 'one') return { faces: [-1, 1], isFaceOpen: false };
  const open = ([0, 1] as const).filter((i) => faces[i]?.shaft !== true);
  const first: Face = (open[0] ?? 0) === 0 ? -1 : 1;
  return { faces: [(first * sense) as Face], isFaceOpen: open.length !== 1 };
}
