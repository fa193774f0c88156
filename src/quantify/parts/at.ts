/** What the parts of a detail are counted by at one penetration. */
import type { Penetration } from '../../model.js';
import type { DuctSize } from '../../rules/size-value.js';
import type { Detail } from '../../rules/tested-detail.js';
import type { Fixing, TestedSystem } from '../../rules/tested-system.js';
import type { Across } from '../../supports/masses.js';
import type { QuantifyChoices } from '../choices.js';
import { COUNTED_NOTHING, type Counted, type Draft } from '../draft.js';
import type { Corners } from '../formulas/frame.js';
import type { MaterialKind, TakeoffPlace } from '../takeoff.js';

export interface At {
  readonly penetration: Penetration;
  readonly place: TakeoffPlace;
  readonly system: TestedSystem;
  readonly detail: Detail;
  /** undefined: it needs none, or none is settled. */
  readonly fixing: Fixing | undefined;
  /** By which the tables of the document go. */
  readonly size: DuctSize;
  /** Of the sheet. */
  readonly duct: Across;
  /** What frames lie against: the sheet, or the protection where that passes through. */
  readonly framed: Across;
  /** Of the protection along the duct. */
  readonly layers: number;
  readonly corners: Corners;
  /** Of fillets whose size the document does not say, mm. */
  readonly filletLeg: number;
  /** What the brief says is delivered. */
  readonly stocks: QuantifyChoices['stocks'];
  /** Of a strap on itself, mm. */
  readonly strapOverlap: number;
  /** mm²; undefined: no opening is known. */
  readonly freeArea: number | undefined;
}

export type PartOf<P extends Detail['parts'][number]['part']> = Extract<Detail['parts'][number], { part: P }>;

/** On how many faces a part is built. */
export const facesOf = ({ detail }: At, faces: 'both' | 'one'): 1 | 2 =>
  detail.faces === 'both' && faces === 'both' ? 2 : 1;

export const drafted = ({ place }: At, ...drafts: readonly Omit<Draft, 'place' | 'element'>[]): Counted => ({
  drafts: drafts.map((draft) => ({ place, element: null, ...draft })),
  uncounted: [],
});

export const missing = ({ place }: At, material: MaterialKind, what: string, because: string): Counted => ({
  ...COUNTED_NOTHING,
  uncounted: [{ ...place, material, what, because }],
});

export const sourceOf = ({ detail, system }: At, part: { readonly source?: string | undefined }): string =>
  part.source ?? detail.source ?? system.source;

/** Why a value by size is not known. */
export const beyondTable = ({ system }: At): string => `the table of ${system.name} has no row for this size of duct`;
