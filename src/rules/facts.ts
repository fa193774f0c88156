import type {
  BarrierFacts,
  Crossings,
  DuctFacts,
  FacingEnds,
  Gaps,
  Minutes,
  ModelInfo,
  Penetration,
  Rating,
  Side,
} from '../model.js';
import { aroundFacts, drawingFacts, headFacts, layersDifference } from './barrier-facts.js';
import { type BriefSays, briefSays } from './brief-says.js';
import { damperOf, type Entry, placedDamper } from './damper-facts.js';
import type { FactObject, FactValue } from './fact-schema.js';
import { requiredMinutes, treatmentMinutes } from './minutes.js';
import { isProtection, type ProtectionCounts } from './protection.js';
import { type DuctSize, type SizeValue, valueAt } from './size-value.js';
import { statedSize } from './stated-size.js';

/** From what was found to the facts that rules see: what is not known is left out. */

/** Leaves out null, undefined, numbers that are none and groups that hold nothing. */
function known(entries: { readonly [name: string]: Entry }): FactObject {
  return Object.fromEntries(
    Object.entries(entries).filter((entry): entry is [string, FactValue | FactObject] => isKnown(entry[1])),
  );
}

function isKnown(value: Entry): boolean {
  if (value === null || value === undefined) return false;
  if (typeof value === 'number') return Number.isFinite(value);
  return typeof value !== 'object' || Array.isArray(value) || Object.keys(value).length > 0;
}

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
    thickness: barrier.leafThickness ?? barrier.thickness,
    layersStated: barrier.layersThickness !== null,
    layersThickness: barrier.layersThickness,
    layersDifference: layersDifference(barrier),
    construction: choice(barrier.construction),
    leaves: barrier.leaves.length + 1,
    rated: isRated(barrier.rating),
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

const NO_BRIEF = briefSays(null, undefined);

export function penetrationFacts(penetration: Penetration, says: BriefSays = NO_BRIEF): FactObject {
  const { opening, treatment } = penetration;
  const required = requiredMinutes(penetration.barrier.rating, says);
  return known({
    id: penetration.id,
    tag: penetration.tag,
    crossing: penetration.crossing,
    jointDistance: penetration.jointDistance,
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
    rating: known({ state: best.rating.state, ...criteria(best.rating) }),
    ...placed,
    access: known(access),
  });
}

/** @param flange how far flanges stand out, as the brief has it; models seldom show them */
export function ductFacts(duct: DuctFacts, flange?: SizeValue): FactObject {
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
    sectionProblem: duct.sectionProblem,
    wall: known({
      outline: choice(duct.wall.outline),
      sheet: duct.wall.sheet?.thickness,
      insulation: duct.wall.insulation?.thickness,
      lining: duct.wall.lining?.thickness,
    }),
    flangeHeight: flange === undefined ? undefined : valueAt(flange, sizeOf(duct)),
    material: choice(duct.material),
    run: duct.run,
    system: duct.system,
    systemType: duct.systemType,
    stated: known(statedSize(duct)),
  });
}

/** For a table by size; of an unknown shape no row can be told. */
const sizeOf = ({ shape, width, height, diameter }: DuctFacts): DuctSize => ({
  shape: choice(shape) ?? undefined,
  width: width ?? undefined,
  height: height ?? undefined,
  diameter: diameter ?? undefined,
});

export const SIDES: readonly Side[] = ['top', 'bottom', 'left', 'right'];

export interface GapFacts {
  readonly side: Side | null;
  /** Side, or `narrowest` and `widest` all round. */
  readonly place: string;
  readonly value: number | null;
  readonly facts: FactObject;
}

/** One length, measured in two ways, may come out on either side of a rounding step of 0.1 mm. */
const ROUNDING = 0.11;

/**
 * The gaps to judge: one for each side of a rectangular duct in a rectangular opening, and all round whatever no side
 * shows. A round duct is widest towards a corner of its opening; an oblique one is wide on one side at one face and on
 * the other side at the other face, while a side holds the least of both.
 */
export function gapFacts(penetration: Penetration): GapFacts[] {
  const { gaps } = penetration;
  if (!hasSides(penetration)) return [allRound(gaps, 'narrowest'), allRound(gaps, 'widest')];
  const values = SIDES.map((side) => gaps[side] ?? 0);
  return [
    ...SIDES.map((side) => {
      const facts = known({ side, place: side, value: gaps[side], facesService: gaps.facing[side] !== undefined });
      return { side, place: side, value: gaps[side], facts };
    }),
    ...(gaps.min !== null && gaps.min < Math.min(...values) - ROUNDING ? [allRound(gaps, 'narrowest')] : []),
    ...(gaps.max !== null && gaps.max > Math.max(...values) + ROUNDING ? [allRound(gaps, 'widest')] : []),
  ];
}

const hasSides = ({ duct, opening, gaps }: Penetration): boolean =>
  duct.shape === 'rectangular' && opening?.shape === 'rectangular' && SIDES.every((side) => gaps[side] !== null);

function allRound(gaps: Gaps, which: 'narrowest' | 'widest'): GapFacts {
  const value = which === 'narrowest' ? gaps.min : gaps.max;
  const facesService = Object.keys(gaps.facing).length > 0;
  return { side: null, place: which, value, facts: known({ which, place: which, value, facesService }) };
}

export function neighbourFacts(penetration: Penetration, other: Penetration, distance: number): FactObject {
  const [a, b] = [penetration.opening, other.opening];
  return known({
    id: other.id,
    tag: other.tag,
    name: other.duct.name || other.duct.globalId,
    distance,
    // A hole in the barrier's body has no identity, so nothing tells whether two ducts pass the same one.
    sameOpening: a?.globalId && b?.globalId ? a.globalId === b.globalId && a.model === b.model : null,
  });
}

export const endsFacts = (ends: FacingEnds): FactObject => known({ system: ends.system, distance: ends.distance });

export const leakFacts = (width: number, other: BarrierFacts): FactObject =>
  known({ width, other: other.name || other.globalId });

export function modelFacts(
  crossings: Crossings,
  models: readonly ModelInfo[] | undefined,
  protection: ProtectionCounts,
): FactObject {
  return known({
    ...protection,
    ductwork: models?.reduce((sum, { counts }) => sum + ductworkOf(counts), 0),
    barriers: crossings.barriers.length,
    rated: crossings.barriers.filter(({ rating }) => rating.state === 'stated' || rating.state === 'durationOnly')
      .length,
    penetrations: crossings.penetrations.length,
    facingEnds: crossings.facingEnds.length,
    ...apartFacts(crossings.apart, models),
  });
}

/** Of several files that lie apart the first stands for all: one origin is mended at a time. */
function apartFacts(apart: Crossings['apart'], models: readonly ModelInfo[] | undefined) {
  const [first] = apart;
  if (!first) return { overlap: true };
  const nameOf = (id: string): string => models?.find((model) => model.id === id)?.file ?? id;
  const [x, y, z] = first.offset;
  return {
    overlap: false,
    apart: first.distance,
    strayFile: nameOf(first.model),
    nearestFile: nameOf(first.from),
    strayFiles: apart.length,
    offset: { x, y, z },
  };
}

const ductworkOf = (counts: ModelInfo['counts']): number =>
  counts.ducts + counts.fittings + counts.dampers + counts.silencers + counts.terminals;
