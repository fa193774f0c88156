/** One protected piece of ductwork as what goes round it is counted. */
import { refOf } from '../../element-refs.js';
import type { Side, Stretch, StretchPart } from '../../model.js';
import type { Fixing, TestedSystem } from '../../rules/tested-system.js';
import { threeSidedAt } from '../../rules/three-sided.js';
import { type Across, acrossOf, grownAcross, perimeter } from '../../supports/masses.js';
import type { QuantifyChoices } from '../choices.js';
import type { Draft } from '../draft.js';
import { roundLayer, roundThreeSides } from '../formulas/wrap.js';
import type { TakeoffLayer, TakeoffPlace, Uncounted } from '../takeoff.js';

/** The side that lies tight against a barrier, where the system was tested with three sides covered. */
export type BareSide = Side;

/** What the first layer lies on: the outside of the sheet, or of insulation that is there. */
type Body =
  | {
      readonly kind: 'straight';
      readonly across: Across;
      readonly way: 'level' | 'upright' | null;
      readonly bare: BareSide | null;
    }
  | {
      readonly kind: 'fitting';
      readonly ends: readonly Across[];
      /** Developed, mm². */
      readonly surface: number;
    };

export interface Along {
  readonly place: TakeoffPlace;
  readonly part: StretchPart;
  readonly system: TestedSystem;
  /** null: which one is not settled. */
  readonly fixing: Fixing | null;
  readonly layers: number;
  readonly body: Body;
  /** Along the axis, mm: what is covered, of what is not straight its surface by its perimeter. */
  readonly length: number;
  /** How many of its ends pass a barrier. */
  readonly barrierEnds: number;
  /** Joints with the next piece that are counted here, so that each is counted once. */
  readonly joints: number;
  readonly choices: QuantifyChoices;
}

export interface Context {
  readonly choices: QuantifyChoices;
  readonly system: TestedSystem;
  readonly fixing: Fixing | null;
  readonly stretch: Stretch;
  /** Places in the parts of those that are counted. */
  readonly counted: ReadonlySet<number>;
  /** Whether the protection ends at the face of a barrier, by the penetration; undefined: no tested detail is chosen. */
  readonly stopsAt: (penetration: string) => boolean | undefined;
}

/** In words what is missing, where it can't be counted. */
export function alongPart(place: TakeoffPlace, index: number, context: Context): Along | string {
  const { stretch, system } = context;
  const part = stretch.parts[index]!;
  const { layers } = part.protection;
  const { measures } = part;
  if (layers === null) return 'nothing says how many layers protect it';
  if (!measures) return 'what goes round it was not measured';
  if (measures.unknown !== null) return measures.unknown;
  const { insulation } = measures;
  const thick = insulation === null ? 0 : insulation.thickness;
  if (thick === null) return 'it is insulated, and nothing says how thick';
  const ends = stretch.ends.filter((end) => end.part === index);
  // Where no detail is chosen nobody knows that it stops, so it is counted through: rather too much than too little.
  const stopping = ends.filter(({ penetration }) => context.stopsAt(penetration) === true).length;
  const within = ends.length === 0 ? 0 : (measures.inBarrier * stopping) / ends.length;
  const shared = {
    ...{ place, part, system, fixing: context.fixing, layers, choices: context.choices },
    barrierEnds: Math.min(2, ends.length),
    joints: jointsOf(index, context),
  };
  const section = measures.section && acrossOf(measures.section);
  if (section) {
    const across = grownAcross(section, thick);
    const bare = bareSide(index, across, layers, stretch, system);
    const body = { kind: 'straight', across, way: measures.way, bare } as const;
    return { ...shared, body, length: Math.max(0, part.length - within) };
  }
  const bare = measures.ends.flatMap((end) => acrossOf(end) ?? []);
  if (measures.surfaceM2 === null || bare.length === 0) return 'the sections of its ends are not known';
  const covered = part.length > 0 ? Math.max(0, part.length - within) / part.length : 1;
  const grown = bare.map((end) => grownAcross(end, thick));
  const around = mean(bare.map(perimeter));
  const length = ((measures.surfaceM2 * 1e6) / around) * covered;
  return { ...shared, length, body: { kind: 'fitting', ends: grown, surface: length * mean(grown.map(perimeter)) } };
}

/** U_k, mm: round the outside of layer k; 0: what the first lies on. Of what is not straight the mean of its ends. */
export function around({ body, system }: Along, layer: number): number {
  const t = system.layer?.thickness ?? 0;
  if (body.kind === 'fitting') return mean(body.ends.map((end) => roundLayer(end, layer, t)));
  const { across, bare } = body;
  if (bare === null || across.shape !== 'rectangular') return roundLayer(across, layer, t);
  const { width, height } = across;
  return roundThreeSides(isFlat(bare) ? { a: width, b: height } : { a: height, b: width }, layer, t);
}

export const layerAt = ({ body }: Along, number: number, thickness: number): TakeoffLayer => ({
  ...{ number, thickness, bare: body.kind === 'straight' ? body.bare : null },
});

/** Corners that a piece goes round. */
export function cornersOf({ body }: Along): number {
  const [first] = body.kind === 'straight' ? [body.across] : body.ends;
  if (first?.shape !== 'rectangular') return 0;
  return body.kind === 'straight' && body.bare !== null ? 2 : 4;
}

export const isFlat = (side: BareSide): boolean => side === 'top' || side === 'bottom';

/** What was counted of pieces, and what of which piece could not be. */
export interface PiecesCounted {
  readonly drafts: readonly Draft[];
  readonly missed: readonly Missed[];
}

/** `what` without the name of the piece: those of which the same is not known are named together. */
export interface Missed extends Uncounted {
  readonly piece: string;
}

export const piecesTogether = (all: readonly PiecesCounted[]): PiecesCounted => ({
  drafts: all.flatMap(({ drafts }) => drafts),
  missed: all.flatMap(({ missed }) => missed),
});

/** None of what has no length. */
export const drafted = (
  { place, part }: Along,
  ...drafts: readonly Omit<Draft, 'place' | 'element'>[]
): PiecesCounted => ({
  drafts: drafts.filter(({ pieces }) => pieces > 0).map((draft) => ({ ...draft, place, element: refOf(part) })),
  missed: [],
});

export const missing = (
  { place, part }: Pick<Along, 'place' | 'part'>,
  missed: Pick<Uncounted, 'material' | 'what' | 'because'>,
): PiecesCounted => ({ drafts: [], missed: [{ ...place, ...missed, piece: part.name }] });

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** A joint is counted on the straight one of two pieces, else on the first of them. */
function jointsOf(index: number, { stretch: { parts }, counted }: Context): number {
  const isStraight = (i: number): boolean => parts[i]?.measures?.section != null;
  return parts[index]!.joins.filter(
    (i) => counted.has(i) && (isStraight(i) === isStraight(index) ? i > index : isStraight(index)),
  ).length;
}

/** What stands beside only a part of the piece leaves it four sides: rather too much than too little. */
function bareSide(
  index: number,
  across: Across,
  layers: number,
  { parts, clearances }: Stretch,
  system: TestedSystem,
): BareSide | null {
  if (across.shape !== 'rectangular' || !system.layer) return null;
  const room = system.layer.thickness * layers;
  const isOwn = (one: { readonly model: string; readonly globalId: string }, at: number): boolean =>
    one.globalId === parts[at]!.globalId && one.model === parts[at]!.model;
  const tight = clearances.filter(
    ({ obstacle, side, distance, elements }) =>
      obstacle.what === 'barrier' && side !== null && distance < room && elements.some((one) => isOwn(one, index)),
  );
  const [first] = tight;
  if (!first?.side || tight.some(({ side }) => side !== first.side)) return null;
  const beside = parts.filter((_, at) => first.elements.some((one) => isOwn(one, at)));
  const long = beside.reduce((sum, part) => sum + part.length, 0);
  if ((first.length ?? 0) < WHOLE * long) return null;
  return threeSidedAt(system, first.obstacle, first.distance, false)?.fits === true ? first.side : null;
}

/** Of the pieces beside which a barrier stands it stands beside all, but for rounding. */
const WHOLE = 0.999;
