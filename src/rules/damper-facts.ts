import type { Penetration, Rating } from '../model.js';
import type { FactObject, FactValue } from './fact-schema.js';
import { numberOf, textOf } from './read-fact.js';
import { type DuctSize, valueAt } from './size-value.js';
import type { TestedDamper, TestedDamperDocument } from './tested-damper.js';

/** Dampers as rules see them, and what a tested damper allows at one penetration. */

type Damper = Penetration['dampers'][number];

/** Of several dampers the one that does most against fire speaks; one of unknown purpose may do so too. */
const PURPOSES = ['fireSmoke', 'fire', 'unknown', 'smoke', 'control'] as const;

export function damperOf(dampers: readonly Damper[]): Damper | undefined {
  const purpose = PURPOSES.find((one) => dampers.some((damper) => damper.purpose === one));
  return dampers
    .filter((damper) => damper.purpose === purpose)
    .sort((a, b) => integrityOf(b.rating) - integrityOf(a.rating))[0];
}

const integrityOf = ({ integrity }: Rating): number => (typeof integrity === 'number' ? integrity : -1);

export type Entry = FactValue | FactObject | null | undefined;

/** Beside its purpose and rating: what is told of the damper and of its place. */
export function placedDamper(damper: Damper, barrier: Penetration['barrier']) {
  const { actuation, size, standsOut, construction, access } = damper;
  const kind = barrier.kind === 'wall' ? 'wall' : 'floor';
  const { orientation } = damper;
  return {
    name: damper.name || damper.globalId,
    typeName: damper.typeName,
    orientation,
    orientationFits: orientation === null ? null : orientation === 'both' || orientation === kind,
    fireSides: damper.fireSides,
    actuation: actuation && actuationWords(actuation),
    ...(size && { ...sizeFacts(size), sizeFrom: size.from }),
    offset: damper.offset === null ? null : Math.abs(damper.offset),
    standsOut: standsOut && Math.max(...standsOut),
    // What is looked for and not found is further off than the longest distance that is looked.
    constructionFound: construction !== null,
    construction: construction?.distance,
    constructionKind: construction?.kind,
    constructionSide: construction?.side,
    access: { withinReach: access.withinReach, found: access.panel !== null, distance: access.distance },
  } satisfies { readonly [name: string]: Entry | { readonly [name: string]: Entry } };
}

const sizeFacts = ({ width, height, diameter }: NonNullable<Damper['size']>) => ({
  shape: diameter === null ? 'rectangular' : 'circular',
  ...{ width, height, diameter },
});

function actuationWords({ type, closure, control, fusibleLink }: NonNullable<Damper['actuation']>): string {
  const said = [type, closure, control].filter((word) => word !== null);
  return [...said, ...(fusibleLink === null ? [] : [`fusible link ${fusibleLink}`])].join(', ');
}

/** Whether the document is about dampers of this name; the purpose is a limit like the others. */
export function isFor({ words }: TestedDamper | TestedDamperDocument, facts: FactObject): boolean {
  const names = [textOf(facts, 'penetration.damper.name'), textOf(facts, 'penetration.damper.typeName')];
  return !words || words.some((word) => names.some((name) => name?.toLowerCase().includes(word.toLowerCase())));
}

/** What a tested damper allows. What its document or the facts leave open is left out. */
export function testedDamperFacts(damper: TestedDamper | TestedDamperDocument, facts: FactObject): FactObject {
  const { scope } = damper;
  const size = damperSizeOf(facts);
  const purpose = textOf(facts, 'penetration.damper.purpose');
  const at = (value: Parameters<typeof valueAt>[0] | undefined) =>
    value === undefined ? undefined : valueAt(value, size);
  const [rectangular, circular] = [scope.sizes.rectangular, scope.sizes.circular];
  return Object.fromEntries(
    Object.entries({
      applied: textOf(facts, 'penetration.treatment.kind') === 'damper' && isFor(damper, facts),
      id: damper.id,
      name: damper.name,
      status: damper.status,
      purposeAllowed: purpose && scope.purposes.some((one) => one === purpose),
      shapeAllowed: size.shape && (size.shape === 'circular' ? circular : rectangular) !== undefined,
      ...barrierLimits(damper, facts),
      widthAtLeast: at(rectangular?.width.atLeast),
      widthAtMost: at(rectangular?.width.atMost),
      heightAtLeast: at(rectangular?.height.atLeast),
      heightAtMost: at(rectangular?.height.atMost),
      diameterAtLeast: at(circular?.diameter.atLeast),
      diameterAtMost: at(circular?.diameter.atMost),
      offsetAtMost: at(scope.offsetAtMost),
      separationAtLeast: at(scope.separationAtLeast),
      constructionAtLeast: at(scope.constructionAtLeast),
      roomStated: scope.room !== undefined,
      roomBeside: at(scope.room?.beside),
      roomBefore: at(scope.room?.before),
      // Which side the fire may be on is not known, so a damper tested from one side may be the right way round or not.
      fireSidesAllowed: scope.fireSides === 'both' ? true : undefined,
      skewAtMost: scope.skewAtMost,
      gapAtLeast: at(scope.gap.atLeast),
      gapAtMost: at(scope.gap.atMost),
      fixingNeeded: false,
    }).filter(([, value]) => value !== undefined && value !== ''),
  ) as FactObject;
}

/** Of the air that the damper lets through: tables and limits go by it. */
export const damperSizeOf = (facts: FactObject): DuctSize => ({
  shape: textOf(facts, 'penetration.damper.shape'),
  width: numberOf(facts, 'penetration.damper.width'),
  height: numberOf(facts, 'penetration.damper.height'),
  diameter: numberOf(facts, 'penetration.damper.diameter'),
});

/** The kind of barrier is judged by itself; its construction among the rows for that kind, where there are any. */
function barrierLimits({ scope }: TestedDamper | TestedDamperDocument, facts: FactObject) {
  const [kind, construction] = [textOf(facts, 'barrier.kind'), textOf(facts, 'barrier.construction')];
  if (kind === undefined) return {};
  const ofKind = scope.barriers.filter(({ kinds }) => kinds.some((one) => one === kind));
  const orientationAllowed = ofKind.length > 0;
  if (construction === undefined) return { orientationAllowed };
  const rows = (orientationAllowed ? ofKind : scope.barriers).filter((row) => row.construction === construction);
  if (rows.length === 0) return { orientationAllowed, constructionAllowed: false };
  const thicknessAtLeast = Math.min(...rows.map((row) => row.thicknessAtLeast));
  // A barrier thinner than any is found too thin; what the damper reaches is then told by the thinnest that was tested.
  const thickness = Math.max(numberOf(facts, 'barrier.thickness') ?? 0, thicknessAtLeast);
  const thinEnough = rows.filter((row) => row.thicknessAtLeast <= thickness);
  return {
    orientationAllowed,
    constructionAllowed: true,
    thicknessAtLeast,
    integrity: reached(
      thinEnough.map((row) => row.integrity),
      numberOf(facts, 'penetration.treatment.integrity'),
    ),
    insulation: reached(
      thinEnough.map((row) => row.insulation),
      numberOf(facts, 'penetration.treatment.insulation'),
    ),
  };
}

/** No more than the damper states of itself; a damper that states nothing may be another than the one that was tested. */
const reached = (tested: readonly number[], stated: number | undefined): number | undefined =>
  stated === undefined ? undefined : Math.min(Math.max(...tested), stated);
