import { detailFacts, layersThere, type Place, placeOf } from './detail-facts.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import { numberReader, textReader } from './read-fact.js';
import { RULE_STATUSES } from './rule-set.js';
import { type DuctSize, type SizeValue, valueAt } from './size-value.js';
import type { Detail } from './tested-detail.js';
import type { LimitsByShape, SectionLimits } from './tested-parts.js';
import type { Fixing, TestedSystem, TestedSystemDocument } from './tested-system.js';

const treatmentKind = textReader('penetration.treatment.kind');
const ductMaterial = textReader('duct.material');
const ductElement = textReader('duct.element');
const fireSide = textReader('brief.fire');
export const integrityAsked = numberReader('penetration.required.integrity');
export const insulationAsked = numberReader('penetration.required.insulation');
const integrityDeclared = numberReader('penetration.treatment.integrity');
const insulationDeclared = numberReader('penetration.treatment.insulation');

/** A tested system with one of its ways to hold it and one of its ways to seal it. */
export interface Tested {
  readonly system: TestedSystem | TestedSystemDocument;
  readonly fixing: Fixing | undefined;
  /** undefined: none is known to be for the barrier. */
  readonly detail: Detail | undefined;
}

/** What a tested system allows at one penetration. What its document or the facts leave open is left out. */
export function systemFacts({ system, fixing, detail }: Tested, facts: FactObject): FactObject {
  const place = placeOf(system, facts);
  return known(systemLimits(system, place), detailFacts(system, detail, place), fixingFacts(fixing, place.size));
}

/** Whatever holds and seals it. */
export function systemLimits(system: TestedSystem | TestedSystemDocument, { facts, size, barrier, layers }: Place) {
  const { scope } = system;
  const treatment = treatmentKind(facts);
  const isOfThisKind = treatment === system.protection || treatment === 'both';
  return {
    applied: isOfThisKind,
    id: system.id,
    name: system.name,
    status: system.status,
    protectionAllowed: treatment === undefined ? undefined : isOfThisKind,
    shapeAllowed: shapeIn(scope.duct, size),
    materialAllowed: among(scope.duct.materials, ductMaterial(facts)),
    elementAllowed: elementIn(scope.duct, ductElement(facts)),
    ...barrierLimits(system, barrier),
    ...largestSection(scope.duct, size),
    ...ductLimits(scope.duct, size),
    ...thicknesses(system, layers),
    threeSidedGapAtMost: scope.threeSided && Math.max(...scope.threeSided.map((row) => row.gapAtMost)),
    // Only of dampers.
    roomStated: false,
    fixingNeeded: system.fixings.length > 0,
    fireSidesStated: scope.fire !== undefined,
    fireSideAllowed: fireAllowed(scope.fire, fireSide(facts)),
    ...reachedRating(system, facts),
  };
}
export type SystemLimits = ReturnType<typeof systemLimits>;

function ductLimits({ aspectRatioAtMost, sheet, pressure }: TestedSystem['scope']['duct'], size: DuctSize) {
  return {
    aspectRatioStated: aspectRatioAtMost !== undefined,
    aspectRatioAtMost,
    sheetAtLeastStated: sheet?.atLeast !== undefined,
    sheetAtLeast: sheet?.atLeast === undefined ? undefined : valueAt(sheet.atLeast, size),
    sheetAtMostStated: sheet?.atMost !== undefined,
    sheetAtMost: sheet?.atMost === undefined ? undefined : valueAt(sheet.atMost, size),
    overPressureStated: pressure?.overAtMost !== undefined,
    overPressureAtMost: pressure?.overAtMost,
    underPressureStated: pressure?.underAtMost !== undefined,
    underPressureAtMost: pressure?.underAtMost,
  };
}

/** How far one way to hold it goes. */
export function fixingFacts(fixing: Fixing | undefined, size: DuctSize) {
  const held = fixing && largestSection(fixing.limits, size);
  return {
    fixing: fixing?.name,
    fixingShapeAllowed: fixing && shapeIn(fixing.limits, size),
    fixingWidthAtMost: held?.widthAtMost,
    fixingHeightAtMost: held?.heightAtMost,
    fixingDiameterAtMost: held?.diameterAtMost,
    fixingUndersideStated: fixing && fixing.undersideAtMost !== undefined,
    fixingUndersideAtMost: fixing?.undersideAtMost === undefined ? undefined : valueAt(fixing.undersideAtMost, size),
  };
}
export type FixingLimits = ReturnType<typeof fixingFacts>;

/** Of one layer, and of all that are there; without a number of layers only that of one. */
function thicknesses({ layer }: TestedSystemDocument | TestedSystem, layers: number | undefined) {
  return {
    layerThickness: layer?.thickness,
    thickness: layer && layers !== undefined ? layer.thickness * layers : undefined,
  };
}

/** Where nobody says which side counts, only a test of both will do. */
function fireAllowed(tested: readonly string[] | undefined, asked: string | undefined): boolean | undefined {
  if (!tested) return undefined;
  const isBoth = ['inside', 'outside'].every((side) => tested.includes(side));
  if (isBoth) return true;
  return asked === undefined ? undefined : tested.includes(asked);
}

function barrierLimits({ scope }: TestedSystemDocument | TestedSystem, { kind, construction }: Place['barrier']) {
  const rows = scope.barriers.filter(
    (row) => row.construction === construction && (!row.kinds || row.kinds.some((one) => one === kind)),
  );
  return {
    orientationAllowed: kind === undefined ? undefined : among(scope.orientation, kind === 'wall' ? 'walls' : 'floors'),
    constructionAllowed: construction === undefined || kind === undefined ? undefined : rows.length > 0,
    thicknessAtLeast: rows.length > 0 ? Math.min(...rows.map((row) => row.thicknessAtLeast)) : undefined,
  };
}

interface LargestSection {
  readonly widthAtMost?: number | undefined;
  readonly heightAtMost?: number | undefined;
  readonly diameterAtMost?: number | undefined;
}

function largestSection(limits: LimitsByShape, size: DuctSize): LargestSection {
  const { shape, width, height } = size;
  if (shape === 'circular') return { diameterAtMost: limits.circular && valueAt(limits.circular.diameter, size) };
  const section = shape === 'rectangular' || shape === 'oval' ? limits[shape] : undefined;
  if (!section) return {};
  const at = (value: SizeValue | undefined): number | undefined =>
    value === undefined ? undefined : valueAt(value, size);
  if (section.width !== undefined) return { widthAtMost: at(section.width), heightAtMost: at(section.height) };
  const [long, short] = [at(section.longestSide), at(section.shortestSide ?? section.longestSide)];
  if (width === undefined || height === undefined) return {};
  return width >= height ? { widthAtMost: long, heightAtMost: short } : { widthAtMost: short, heightAtMost: long };
}

const shapeIn = (limits: LimitsByShape, { shape }: DuctSize): boolean | undefined =>
  shape === undefined
    ? undefined
    : (limits as { readonly [shape: string]: SectionLimits | object | undefined })[shape] !== undefined;

/** By the layers that are there; a number of layers that was not tested reaches nothing that is known. */
export function reachedRating({ scope, protection }: TestedSystemDocument | TestedSystem, facts: FactObject) {
  const layers = layersThere(protection, facts);
  const reached = scope.ratings.find((row) => row.layers === layers);
  const least = (minutes: number | undefined, declared: number | undefined): number | undefined =>
    minutes === undefined || declared === undefined ? minutes : Math.min(minutes, declared);
  const [integrity, insulation] = [integrityAsked(facts), insulationAsked(facts)];
  const enough =
    integrity === undefined || insulation === undefined
      ? undefined
      : scope.ratings.find((row) => row.integrity >= integrity && row.insulation >= insulation);
  return {
    layersFor: enough?.layers,
    integrity: least(reached?.integrity, integrityDeclared(facts)),
    insulation: least(reached?.insulation, insulationDeclared(facts)),
  };
}

/** Of two neighbours the stricter; what one of them leaves open is open. */
export function stricterSystem(a: FactObject, b: FactObject): FactObject {
  if (a.applied !== true || b.applied !== true) return { applied: false };
  const least = [a.separationAtLeast, b.separationAtLeast];
  const isKnown = least.every((value) => typeof value === 'number');
  const order: readonly unknown[] = RULE_STATUSES;
  const trust = ({ status }: FactObject): number => order.indexOf(status);
  const { separationAtLeast: _, ...rest } = trust(a) >= trust(b) ? a : b;
  return isKnown ? { ...rest, separationAtLeast: Math.max(...(least as number[])) } : rest;
}

const among = <T>(list: readonly T[], value: T | string | undefined): boolean | undefined =>
  value === undefined ? undefined : list.some((one) => one === value);

/** What every test has is a straight rigid duct; a damper has proof of its own. */
function elementIn(tested: TestedSystem['scope']['duct'], element: string | undefined): boolean | undefined {
  if (element === 'flexible') return tested.flexible;
  if (element === 'fitting') return tested.fittings;
  return element === undefined ? undefined : element === 'segment' || element === 'damper';
}
