import { resistsFire } from '../fire-rating/index.js';
import { lineAngle, sub, Z } from '../geometry/vector.js';
import type {
  BarrierFacts,
  DoorFacts,
  DuctFacts,
  FacingEnds,
  Minutes,
  Penetration,
  Rating,
  Service,
} from '../model.js';
import { STEEP } from '../tolerances.js';
import { aroundFacts, drawingFacts, edgeDistance, headFacts, layersDifference } from './barrier-facts.js';
import { briefSays } from './brief-says.js';
import { damperOf, placedDamper } from './damper-facts.js';
import type { FactObject } from './fact-schema.js';
import type { Flange } from './flange-table.js';
import { known } from './known.js';
import { requiredMinutes, treatmentMinutes } from './minutes.js';
import { isProtection } from './protection.js';
import { bothReached } from './reach.js';
import type { DuctSize } from './size-value.js';
import { statedSize } from './stated-size.js';

/** From what was found to the facts that rules see: what is not known is left out. */

/** For what is one of a list of words: a name or a rating's text may well be the word "unknown". */
const choice = <T extends string>(word: T): T | null => (word === 'unknown' ? null : word);

export interface BarrierCounts {
  readonly penetrations: number;
  readonly facingEnds: number;
}

/** Tags of the penetrations over which their wall stops short of the structure. */
export const tagsUnderGap = (penetrations: readonly Penetration[]): string[] =>
  penetrations.filter(({ headGap }) => headGap !== null && headGap > 0).map(({ tag }) => tag);

export function barrierFacts(barrier: BarrierFacts, counts: BarrierCounts, underGap: readonly string[]): FactObject {
  return known({
    globalId: barrier.globalId,
    name: barrier.name || barrier.globalId,
    kind: barrier.kind,
    storey: barrier.storey?.name,
    thickness: barrier.leafThickness,
    drawnThickness: barrier.drawnThickness,
    leafFrom: barrier.leafFrom,
    leafProblem: barrier.leafProblem,
    boardedSides: barrier.boards?.filter((boards) => boards > 0).length,
    layersStated: barrier.layersThickness !== null,
    layersThickness: barrier.layersThickness,
    layersDifference: layersDifference(barrier),
    construction: choice(barrier.construction),
    leaves: barrier.leaves.length + 1,
    rated: resistsFire(barrier.rating),
    minutes: ratedMinutes(barrier.rating),
    rating: known({
      state: barrier.rating.state,
      text: barrier.rating.text,
      ...criteria(barrier.rating),
      from: barrier.rating.from,
    }),
    drawing: known(drawingFacts(barrier)),
    head: known(headFacts(barrier.head, underGap)),
    ...counts,
  });
}

/** By which tables of codes go: integrity, or the one number that is stated. */
const ratedMinutes = ({ integrity, duration }: Rating): number | null =>
  typeof integrity === 'number' ? integrity : integrity === null ? duration : null;

const criteria = (rating: Rating) => ({
  loadbearing: minutes(rating.loadbearing),
  integrity: minutes(rating.integrity),
  insulation: minutes(rating.insulation),
  duration: rating.duration,
});

/** Nothing asked is 0 minutes: everything reaches that. */
const minutes = (value: Minutes): number | null => (value === 'none' ? 0 : value);

export function penetrationFacts(penetration: Penetration, says = briefSays(penetration.duct, {})): FactObject {
  const { opening, treatment } = penetration;
  const required = requiredMinutes(penetration.barrier.rating, says);
  return known({
    id: penetration.id,
    tag: penetration.tag,
    crossing: penetration.crossing,
    jointDistance: penetration.jointDistance,
    jointFrom: penetration.jointFrom,
    bothFacesReached: bothReached(penetration.faces, says.room),
    narrowestGap: penetration.gaps.min,
    widestGap: penetration.gaps.max,
    edgeDistance: opening === null ? null : edgeDistance(penetration),
    skew: penetration.skew,
    gapsTo: choice(penetration.gapsTo),
    storey: penetration.storey?.name,
    opening: known({
      present: opening !== null,
      shape: opening?.shape,
      width: opening?.width,
      height: opening?.height,
      from: opening?.from,
    }),
    damper: damperFacts(penetration),
    damperOutside: known({
      present: penetration.damperOutside !== null,
      name: penetration.damperOutside && (penetration.damperOutside.name || penetration.damperOutside.globalId),
      distance: penetration.damperOutside?.distance,
    }),
    protected: treatment.kind === 'unknown' ? null : isProtection(treatment.kind),
    // Rules ask whether there is any treatment known by asking for the group.
    treatment:
      treatment.kind === 'unknown'
        ? null
        : known({
            kind: treatment.kind,
            layers: treatment.layers,
            ...treatmentMinutes(penetration, required),
          }),
    required: known({ ...required }),
    others: [...new Set(penetration.others.map(({ kind }) => kind))].sort(),
    ...aroundFacts(penetration),
  });
}

function damperFacts({ dampers, barrier }: Penetration): FactObject {
  const best = damperOf(dampers);
  if (!best) return { present: false };
  const { access, ...placed } = placedDamper(best, barrier);
  return known({
    present: true,
    purpose: choice(best.purpose),
    minutes: damperMinutes(dampers),
    rating: known({ state: best.rating.state, ...criteria(best.rating) }),
    ...placed,
    access: known(access),
  });
}

/** Which of several fire dampers holds the fire is not known, so the least of their ratings counts. */
function damperMinutes(dampers: Penetration['dampers']): number | undefined {
  const holding = dampers.filter(({ purpose }) => purpose === 'fire' || purpose === 'fireSmoke');
  const all = holding.map(({ rating }) => ratedMinutes(rating));
  return all.length === 0 || all.includes(null) ? undefined : Math.min(...all.map((minutes) => minutes ?? 0));
}

/** @param flange how far flanges stand out; models seldom show them */
export function ductFacts(
  duct: DuctFacts,
  flange: Flange = { height: undefined, from: 'nowhere' },
  service?: Service | 'none' | null,
): FactObject {
  return known({
    globalId: duct.globalId,
    name: duct.name || duct.globalId,
    element: duct.element,
    shape: choice(duct.shape),
    width: duct.width,
    height: duct.height,
    diameter: duct.diameter,
    sectionFrom: duct.sectionFrom,
    sectionResidual: duct.sectionResidual,
    measuredTo: measuredTo(duct),
    sectionProblem: duct.sectionProblem,
    wall: known({
      outline: choice(duct.wall.outline),
      sheet: duct.wall.sheet?.thickness,
      insulation: duct.wall.insulation?.thickness,
      lining: duct.wall.lining?.thickness,
    }),
    flangeHeight: flange.height,
    flangeFrom: flange.from,
    material: choice(duct.material),
    run: duct.run,
    system: duct.system,
    systemType: duct.systemType,
    service,
    aspectRatio: aspectRatio(duct),
    underside: underside(duct),
    stated: known(statedSize(duct)),
  });
}

/** Level and flat: 0 where the duct is upright or round. */
function underside({ shape, width, axis }: DuctFacts): number | null {
  if (shape === 'circular') return 0;
  if (shape === 'unknown' || axis === null) return null;
  return lineAngle(sub(axis[1], axis[0]), Z) < STEEP ? 0 : width;
}

/** Of a round duct 1. */
function aspectRatio({ shape, width, height }: DuctFacts): number | null {
  if (shape === 'circular') return 1;
  if (shape === 'unknown' || width === null || height === null || Math.min(width, height) <= 0) return null;
  return Math.max(width, height) / Math.min(width, height);
}

/** mm: a profile is what it says; a mesh is as near to its section as the shape fits it; null: not known. */
export const measuredTo = ({ sectionFrom, sectionResidual }: DuctFacts): number | null =>
  sectionFrom === 'profile' ? 0 : sectionFrom === 'mesh' ? sectionResidual : null;

/** Null where one of them is not known. */
const sumOf = (values: readonly (number | null)[]): number | null =>
  values.reduce((sum, value) => (sum === null || value === null ? null : sum + value), 0);

/** How exactly a gap is measured: as both of the sections are that it lies between. */
export const gapMeasuredTo = (duct: DuctFacts, facing: readonly DuctFacts[]): number | null =>
  sumOf([measuredTo(duct), Math.max(0, ...facing.map((one) => measuredTo(one) ?? Number.NaN))]);

/** For a table by size: of the sheet where it is known, else of what is drawn; of an unknown shape no row can be told. */
export function sheetSize({ shape, sizes, ...drawn }: DuctFacts): DuctSize {
  const { width, height, diameter } = sizes.sheet ?? drawn;
  return {
    shape: choice(shape) ?? undefined,
    width: width ?? undefined,
    height: height ?? undefined,
    diameter: diameter ?? undefined,
  };
}

export function neighbourFacts(penetration: Penetration, other: Penetration, distance: number): FactObject {
  const [a, b] = [penetration.opening, other.opening];
  return known({
    id: other.id,
    tag: other.tag,
    name: other.duct.name || other.duct.globalId,
    distance,
    measuredTo: sumOf([penetration.duct, other.duct].map(measuredTo)),
    // A hole in the barrier's body has no identity, so nothing tells whether two ducts pass the same one.
    sameOpening: a?.globalId && b?.globalId ? a.globalId === b.globalId && a.model === b.model : null,
  });
}

export const endsFacts = (ends: FacingEnds): FactObject => known({ system: ends.system, distance: ends.distance });

export const leakFacts = (width: number, other: BarrierFacts): FactObject =>
  known({ width, other: other.name || other.globalId });

export const doorFacts = ({ name, globalId, rating }: DoorFacts): FactObject =>
  known({
    name: name || globalId,
    rated: resistsFire(rating),
    rating: known({ state: rating.state, text: rating.text, ...criteria(rating) }),
  });
