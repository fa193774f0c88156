/** What the tested details for a barrier ask for at its faces. */
import type { FactObject } from './fact-schema.js';
import { factOf, numberOf, textOf } from './read-fact.js';
import { type DuctSize, type SizeValue, valueAt } from './size-value.js';
import type { TestedSystem, TestedSystemDocument } from './tested-system.js';

type Detail = TestedSystemDocument['details'][number];
type Part<P extends Detail['parts'][number]['part']> = Extract<Detail['parts'][number], { part: P }>;

/**
 * Of several details the most that any asks for. Those built on both faces hold unless one face is known to be out of
 * reach and others were tested from one. Left out where there is none, or a table does not go so far.
 *
 * @param layers of the protection that is there
 */
export function detailFacts(
  { details, layer }: TestedSystem | TestedSystemDocument,
  facts: FactObject,
  size: DuctSize,
  layers: number | undefined,
) {
  const own = detailsFor(details, facts);
  const fromOne = own.filter(({ faces }) => faces === 'one');
  const isOutOfReach = factOf(facts, 'penetration.bothFacesReached') === false;
  const onBoth = own.filter(({ faces }) => faces === 'both');
  const used = onBoth.length === 0 || (isOutOfReach && fromOne.length > 0) ? fromOne : onBoth;
  const most = (of: (detail: Detail) => number | undefined): number | undefined => largest(used.map(of), undefined);
  const sizes = <P extends Detail['parts'][number]['part']>(
    detail: Detail,
    part: P,
    of: (part: Part<P>) => SizeValue,
  ): (number | undefined)[] => partsOf(detail, part).map((one) => valueAt(of(one), size));
  const localBuildUp = most((detail) =>
    largest(
      sizes(detail, 'localBuildUp', ({ length }) => length),
      0,
    ),
  );
  const thickness = most((detail) => thicknessWith(partsOf(detail, 'localBuildUp'), layer?.thickness, layers));
  const collarWidth = most((detail) =>
    largest([...sizes(detail, 'angle', ({ leg }) => leg), ...sizes(detail, 'boardCollar', ({ width }) => width)], 0),
  );
  // One may lie on the other.
  const collarDepth = most((detail) =>
    sum([
      ...sizes(detail, 'angle', (angle) => angle.thickness),
      ...sizes(detail, 'boardCollar', (board) => board.thickness),
    ]),
  );
  const isCollarKnown = collarWidth !== undefined && collarDepth !== undefined;
  return {
    facesNeeded: used.length === 0 ? undefined : used === fromOne ? 1 : 2,
    reachNeeded: used.length === 0 ? undefined : true,
    testedFromOneFace: own.length === 0 ? undefined : fromOne.length > 0,
    localBuildUp,
    // How wide says nothing without how far.
    buildUpThickness: localBuildUp === undefined ? undefined : thickness,
    ...(isCollarKnown && { collarWidth, collarDepth }),
  };
}

function detailsFor(details: readonly Detail[], facts: FactObject): Detail[] {
  const [kind, construction] = [textOf(facts, 'barrier.kind'), textOf(facts, 'barrier.construction')];
  if (kind === undefined || construction === undefined) return [];
  const isFor = (list: readonly string[] | undefined, word: string) => !list || list.includes(word);
  return details.filter((detail) => isFor(detail.kinds, kind) && isFor(detail.constructions, construction));
}

const partsOf = <P extends Detail['parts'][number]['part']>({ parts }: Detail, part: P): Part<P>[] =>
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

/** Undefined where one of them is not known. @param none of no values at all */
function largest(values: readonly (number | undefined)[], none: number | undefined): number | undefined {
  if (values.length === 0) return none;
  return values.includes(undefined) ? undefined : Math.max(...(values as number[]));
}

const sum = (values: readonly (number | undefined)[]): number | undefined =>
  values.includes(undefined) ? undefined : (values as number[]).reduce((total, one) => total + one, 0);

/** The layers of the protection that are there. A duct that resists fire by itself has none to count. */
export const layersThere = (protection: TestedSystemDocument['protection'], facts: FactObject): number | undefined =>
  protection === 'fireResistingDuct' ? 1 : numberOf(facts, 'penetration.treatment.layers');
