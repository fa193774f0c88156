/** What one tested detail asks for at a penetration and its faces, and which details a barrier has. */
import type { FactObject } from './fact-schema.js';
import { ductSizeOf, factReader, numberReader, textReader } from './read-fact.js';
import { type DuctSize, type SizeValue, valueAt } from './size-value.js';
import type { Detail } from './tested-detail.js';
import type { TestedSystem, TestedSystemDocument } from './tested-system.js';

type System = TestedSystem | TestedSystemDocument;
type Part<P extends Detail['parts'][number]['part']> = Extract<Detail['parts'][number], { part: P }>;

/** What the limits of a tested system go by at one penetration. */
export interface Place {
  readonly facts: FactObject;
  readonly size: DuctSize;
  readonly barrier: { readonly kind: string | undefined; readonly construction: string | undefined };
  /** Of the protection that is there; undefined: not known. */
  readonly layers: number | undefined;
  /** Tested in such a barrier with as many layers; undefined where the barrier is not known well enough. */
  readonly details: readonly Detail[] | undefined;
}

export function placeOf(system: System, facts: FactObject): Place {
  const layers = layersThere(system.protection, facts);
  const barrier = { kind: barrierKind(facts), construction: barrierConstruction(facts) };
  return { facts, size: ductSizeOf(facts), barrier, layers, details: inBarrier(system, barrier, layers) };
}

/**
 * The details that hold: those built on both faces, unless one face is known to be out of reach and others were tested from
 * one. Empty where the barrier is not known well enough.
 */
export function detailsFor({ facts, details = [] }: Place): readonly Detail[] {
  const fromOne = details.filter(({ faces }) => faces === 'one');
  const onBoth = details.filter(({ faces }) => faces === 'both');
  const isOutOfReach = bothFacesReached(facts) === false;
  return onBoth.length === 0 || (isOutOfReach && fromOne.length > 0) ? fromOne : onBoth;
}

const bothFacesReached = factReader('penetration.bothFacesReached');
const barrierKind = textReader('barrier.kind');
const barrierConstruction = textReader('barrier.construction');
const treatmentLayers = numberReader('penetration.treatment.layers');

function inBarrier(
  { details, scope }: System,
  { kind, construction }: Place['barrier'],
  layers: number | undefined,
): Detail[] | undefined {
  if (kind === undefined || construction === undefined) return undefined;
  const tested = testedConstructions(scope.barriers, construction);
  return details.filter(
    (detail) =>
      isForBarrier(detail, kind, tested) && (layers === undefined || !detail.layers || detail.layers.includes(layers)),
  );
}

/** @param testedIn the construction of the barrier, and those whose tests cover it */
export const isForBarrier = (
  { kinds, constructions }: Pick<Detail, 'kinds' | 'constructions'>,
  kind: string,
  testedIn: readonly string[],
): boolean =>
  (!kinds || kinds.some((one) => one === kind)) &&
  (!constructions || constructions.some((one) => testedIn.includes(one)));

/** Itself, and those whose tests cover it. */
export const testedConstructions = (rows: System['scope']['barriers'], construction: string): readonly string[] => [
  construction,
  ...rows.flatMap((row) => (row.construction === construction ? (row.coveredBy ?? []) : [])),
];

/**
 * What the detail asks for. Left out where a table does not go so far; without a detail, only what holds for all.
 *
 * @param detail undefined: none is known to be for this barrier
 */
export function detailFacts(system: System, detail: Detail | undefined, { details, size, layers }: Place) {
  return {
    detail: detail?.name,
    detailTested: details && (detail ? details.includes(detail) : details.length > 0),
    testedFromOneFace: details?.length ? details.some(({ faces }) => faces === 'one') : undefined,
    ...gapLimits(system, detail, size, layers),
    skewAtMost: detail?.skewAtMost ?? system.scope.skewAtMost,
    separationAtLeast: valueAt(detail?.separationAtLeast ?? system.scope.separationAtLeast, size),
    ...(detail && limitsOf(detail, size)),
    ...(detail && atFaces(system, detail, size, layers)),
  };
}
export type DetailLimits = ReturnType<typeof detailFacts>;

/** What passes through takes as much of the gap as its layers are thick. */
function gapLimits({ scope, layer }: System, detail: Detail | undefined, size: DuctSize, layers: number | undefined) {
  const gap = detail?.gap ?? scope.gap;
  const [least, most] = [valueAt(gap.atLeast, size), valueAt(gap.atMost, size)];
  if (detail?.gapDatum !== 'passesThrough') return { gapAtLeast: least, gapAtMost: most };
  const through = layer && layers !== undefined ? layer.thickness * layers : undefined;
  const beyond = (limit: number | undefined) =>
    limit === undefined || through === undefined ? undefined : limit + through;
  return { gapAtLeast: beyond(least), gapAtMost: beyond(most) };
}

function limitsOf({ openingAtMost, edgeDistanceAtLeast, movementAtMost }: Detail, size: DuctSize) {
  const at = (value: SizeValue | undefined) => (value === undefined ? undefined : valueAt(value, size));
  return {
    openingStated: openingAtMost !== undefined,
    openingWidthAtMost: at(openingAtMost?.width),
    openingHeightAtMost: at(openingAtMost?.height),
    edgeDistanceStated: edgeDistanceAtLeast !== undefined,
    edgeDistanceAtLeast: at(edgeDistanceAtLeast),
    movementAtMost,
  };
}

function atFaces({ layer }: System, detail: Detail, size: DuctSize, layers: number | undefined) {
  const sizes = <P extends Detail['parts'][number]['part']>(part: P, of: (part: Part<P>) => SizeValue) =>
    partsOf(detail, part).map((one) => valueAt(of(one), size));
  const localBuildUp = largest(sizes('localBuildUp', ({ length }) => length));
  const collarWidth = largest([...sizes('angle', ({ leg }) => leg), ...sizes('boardCollar', ({ width }) => width)]);
  // One may lie on the other.
  const collarDepth = sum([
    ...sizes('angle', (angle) => angle.thickness),
    ...sizes('boardCollar', (board) => board.thickness),
  ]);
  const isCollarKnown = collarWidth !== undefined && collarDepth !== undefined;
  return {
    facesNeeded: detail.faces === 'one' ? 1 : 2,
    reachNeeded: true,
    localBuildUp,
    // How wide says nothing without how far.
    buildUpThickness:
      localBuildUp === undefined ? undefined : thicknessWith(partsOf(detail, 'localBuildUp'), layer?.thickness, layers),
    ...(isCollarKnown && { collarWidth, collarDepth }),
  };
}

export const partsOf = <P extends Detail['parts'][number]['part']>({ parts }: Detail, part: P): Part<P>[] =>
  parts.filter((one): one is Part<P> => one.part === part);

/** All layers that are there and those of the build-up on them. */
function thicknessWith(
  buildUps: readonly Part<'localBuildUp'>[],
  layerThickness: number | undefined,
  layers: number | undefined,
): number | undefined {
  if (buildUps.length === 0) return 0;
  if (layerThickness === undefined || layers === undefined) return undefined;
  return layerThickness * (layers + Math.max(...buildUps.map((one) => one.layers)));
}

/** 0 of none; undefined where one of them is not known. */
function largest(values: readonly (number | undefined)[]): number | undefined {
  if (values.length === 0) return 0;
  return values.includes(undefined) ? undefined : Math.max(...(values as number[]));
}

const sum = (values: readonly (number | undefined)[]): number | undefined =>
  values.includes(undefined) ? undefined : (values as number[]).reduce((total, one) => total + one, 0);

/** The layers of the protection that are there. A duct that resists fire by itself has none to count. */
export const layersThere = (protection: TestedSystemDocument['protection'], facts: FactObject): number | undefined =>
  protection === 'fireResistingDuct' ? 1 : treatmentLayers(facts);
