/** How much room everything takes that is built: on the faces, off the duct, along it. All in millimetres. */
import type { BuiltPart } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import type { Built } from './built.js';
import type { Cut } from './cut.js';

export type Chosen = NonNullable<ReportPenetration['treatment']['chosen']>;
export type PartOf<P extends BuiltPart['part']> = Extract<BuiltPart, { part: P }>;

export interface Sizes {
  readonly pair: Cut['pair'];
  /** Of one layer, as the cut shows it; 0 where it is not known. */
  readonly layer: number;
  /** Along the duct; 0 of one that resists fire by itself. */
  readonly layers: number;
  /** How far the sheet lies inside the outline. */
  readonly inset: number;
  /** From the outline to what frames lie against: the sheet, or the protection where that goes through. */
  readonly base: number;
  /** How much thicker a duct that is askew makes what lies along it seem. */
  readonly stretch: number;
  /** Of all that lies on a face. */
  readonly stack: number;
  readonly angle: { readonly leg: number; readonly thickness: number } | undefined;
  readonly collarWidth: number | undefined;
  /** From the outline to the outside of all layers, those of the build-up too. */
  readonly outside: number;
  readonly reach: Built['reach'];
  readonly buildUp: Built['buildUp'];
}

/** Of a bead whose size the document does not say. Drawn only: the notes say so. */
export const UNSTATED_BEAD = 10;

export function sizesOf(chosen: Chosen, cut: Cut, inset: number): Sizes {
  const { parts, protection, gapDatum } = chosen;
  const stretch = Math.hypot(1, cut.slope);
  const layers = protection === 'fireResistingDuct' ? 0 : (chosen.layers ?? 0);
  const layer = (chosen.layerThickness ?? 0) * stretch;
  const base = (gapDatum === 'passesThrough' ? layer * layers : 0) - inset;
  const angles = parts.filter((one): one is PartOf<'angle'> => one.part === 'angle' && isInCut(one, cut.pair));
  const angle = angles.find(({ leg, thickness }) => leg !== null && thickness !== null);
  const collarWidth = largest(parts.map((one) => (one.part === 'boardCollar' ? one.width : null)));
  const stack = depthBefore(parts, parts.length, cut.pair);
  const buildUps = parts.filter((one): one is PartOf<'localBuildUp'> => one.part === 'localBuildUp');
  const length = layer === 0 ? undefined : largest(buildUps.map((one) => one.length));
  const outside = layer * buildUps.reduce((sum, one) => sum + one.layers, layers) - inset;
  const end = (length ?? 0) / stretch;
  return {
    ...{ pair: cut.pair, layer, layers, inset, base, stretch, stack, collarWidth, outside },
    angle: angle && { leg: angle.leg!, thickness: angle.thickness! },
    reach: {
      along: Math.max(stack, angle?.leg ?? 0, end),
      across: Math.max(outside, base + (angle?.leg ?? 0), base + (collarWidth ?? 0)),
    },
    // Build-ups of several lengths are dimensioned by the longest.
    buildUp: length === undefined ? null : { length, end, outside },
  };
}

export const isInCut = ({ sides }: PartOf<'angle'>, pair: Cut['pair']): boolean => sides === 'all' || sides === pair;

const largest = (values: readonly (number | null)[]): number | undefined => {
  const known = values.filter((value) => value !== null);
  return known.length > 0 ? Math.max(...known) : undefined;
};

/** How deep what is already on a face is when a part of the list is built. */
export const depthBefore = (parts: readonly BuiltPart[], place: number, pair: Cut['pair']): number =>
  parts.slice(0, place).reduce((sum, one) => {
    const isOnFace = one.part === 'boardCollar' || (one.part === 'angle' && isInCut(one, pair));
    return isOnFace ? sum + (one.thickness ?? 0) : sum;
  }, 0);

export const beadSize = ({ depth, width }: PartOf<'sealant'>): number => depth ?? width ?? UNSTATED_BEAD;

/** How far the sheet lies inside the outline. */
export const sheetInset = ({ duct: { wall } }: ReportPenetration): number =>
  wall.outline === 'insulation' ? (wall.insulation?.thickness ?? 0) : 0;
