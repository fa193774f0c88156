import type {
  BarrierFacts,
  Crossings,
  DuctFacts,
  FacingEnds,
  Minutes,
  ModelInfo,
  Penetration,
  Rating,
  Side,
} from '../model.js';
import type { FactObject, FactValue } from './fact-schema.js';

/** From what was found to the facts that rules see: what is not known is left out. */

type Entry = FactValue | FactObject | null | undefined;

/** Leaves out null, undefined, the word "unknown" and groups that hold nothing. */
function known(entries: { readonly [name: string]: Entry }): FactObject {
  return Object.fromEntries(
    Object.entries(entries).filter((entry): entry is [string, FactValue | FactObject] => isKnown(entry[1])),
  );
}

function isKnown(value: Entry): boolean {
  if (value === null || value === undefined || value === 'unknown') return false;
  if (typeof value === 'number') return Number.isFinite(value);
  return typeof value !== 'object' || Array.isArray(value) || Object.keys(value).length > 0;
}

export interface BarrierCounts {
  readonly penetrations: number;
  readonly facingEnds: number;
}

export function barrierFacts(barrier: BarrierFacts, counts: BarrierCounts): FactObject {
  return known({
    globalId: barrier.globalId,
    name: barrier.name || barrier.globalId,
    kind: barrier.kind,
    storey: barrier.storey?.name,
    thickness: barrier.thickness,
    construction: barrier.construction,
    leaves: barrier.leaves.length + 1,
    rated: isRated(barrier.rating),
    rating: known({
      state: barrier.rating.state,
      text: barrier.rating.text,
      ...criteria(barrier.rating),
      from: barrier.rating.from,
    }),
    ...counts,
  });
}

/** Does the barrier hold back fire? Undefined where its rating does not say. */
export function isRated({ state, integrity, insulation }: Rating): boolean | undefined {
  if (state === 'durationOnly') return true;
  if (state === 'notRequired') return false;
  if (state !== 'stated') return undefined;
  if (typeof integrity === 'number' || typeof insulation === 'number') return true;
  return integrity === 'none' && insulation === 'none' ? false : undefined;
}

const criteria = (rating: Rating) => ({
  loadbearing: minutes(rating.loadbearing),
  integrity: minutes(rating.integrity),
  insulation: minutes(rating.insulation),
  duration: rating.duration,
});

/** Nothing asked is 0 minutes: everything reaches that. */
const minutes = (value: Minutes): number | null => (value === 'none' ? 0 : value);

export function penetrationFacts(penetration: Penetration): FactObject {
  const { opening, treatment } = penetration;
  return known({
    id: penetration.id,
    tag: penetration.tag,
    crossing: penetration.crossing,
    skew: penetration.skew,
    gapsTo: penetration.gapsTo,
    storey: penetration.storey?.name,
    opening: known({
      present: opening !== null,
      shape: opening?.shape,
      width: opening?.width,
      height: opening?.height,
      from: opening?.from,
    }),
    damper: damperFacts(penetration.dampers),
    treatment: known({ kind: treatment.kind }),
    others: [...new Set(penetration.others.map(({ kind }) => kind))].sort(),
  });
}

/** Of several dampers the one that does most against fire speaks; one of unknown purpose may do so too. */
const PURPOSES = ['fireSmoke', 'fire', 'unknown', 'smoke', 'control'] as const;

function damperFacts(dampers: Penetration['dampers']): FactObject {
  const purpose = PURPOSES.find((one) => dampers.some((damper) => damper.purpose === one));
  const best = dampers
    .filter((damper) => damper.purpose === purpose)
    .sort((a, b) => integrityOf(b.rating) - integrityOf(a.rating))[0];
  return known({
    present: dampers.length > 0,
    purpose,
    rating: best && known({ state: best.rating.state, ...criteria(best.rating) }),
  });
}

const integrityOf = ({ integrity }: Rating): number => (typeof integrity === 'number' ? integrity : -1);

export function ductFacts(duct: DuctFacts): FactObject {
  return known({
    globalId: duct.globalId,
    name: duct.name || duct.globalId,
    element: duct.element,
    shape: duct.shape,
    width: duct.width,
    height: duct.height,
    diameter: duct.diameter,
    sectionFrom: duct.sectionFrom,
    sectionResidual: duct.sectionResidual,
    material: duct.material,
    run: duct.run,
    system: duct.system,
    systemType: duct.systemType,
    stated: known(duct.stated),
  });
}

export const SIDES: readonly Side[] = ['top', 'bottom', 'left', 'right'];

export interface GapFacts {
  readonly side: Side | null;
  /** Side, or `narrowest` and `widest` where there are no sides. */
  readonly place: string;
  readonly value: number | null;
  readonly facts: FactObject;
}

/** One for each side, or the narrowest and the widest where the shape has no sides. */
export function gapFacts({ gaps }: Penetration): GapFacts[] {
  if (SIDES.every((side) => gaps[side] === null)) {
    return (['narrowest', 'widest'] as const).map((which) => {
      const value = which === 'narrowest' ? gaps.min : gaps.max;
      const facts = known({ which, place: which, value, facesService: Object.keys(gaps.facing).length > 0 });
      return { side: null, place: which, value, facts };
    });
  }
  return SIDES.map((side) => {
    const value = gaps[side];
    const facts = known({ side, place: side, value, facesService: gaps.facing[side] !== undefined });
    return { side, place: side, value, facts };
  });
}

export function neighbourFacts(penetration: Penetration, other: Penetration, distance: number): FactObject {
  const [a, b] = [penetration.opening, other.opening];
  return known({
    id: other.id,
    tag: other.tag,
    distance,
    // A hole in the barrier's body has no identity, so nothing tells whether two ducts pass the same one.
    sameOpening: a?.globalId && b?.globalId ? a.globalId === b.globalId && a.model === b.model : null,
  });
}

export const endsFacts = (ends: FacingEnds): FactObject => known({ system: ends.system, distance: ends.distance });

export function modelFacts(crossings: Crossings, models: readonly ModelInfo[] | undefined): FactObject {
  return known({
    ductwork: models?.reduce((sum, { counts }) => sum + ductworkOf(counts), 0),
    barriers: crossings.barriers.length,
    rated: crossings.barriers.filter(({ rating }) => rating.state === 'stated' || rating.state === 'durationOnly')
      .length,
    penetrations: crossings.penetrations.length,
    facingEnds: crossings.facingEnds.length,
    overlap: crossings.overlap,
  });
}

const ductworkOf = (counts: ModelInfo['counts']): number =>
  counts.ducts + counts.fittings + counts.dampers + counts.silencers + counts.terminals;
