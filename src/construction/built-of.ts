/** The layers of one barrier told into its rated leaf, what lines it, and the air between. */
import type { Construction, ConstructionWords, LayerKind, LayerRole } from '../model.js';
import { plainWords, rowsFor } from '../words/names.js';
import { besideOf, constructionIn, constructionOf } from './construction-of.js';

/** What a file says of one layer. */
export interface LayerText {
  readonly material: string;
  /** IfcMaterialLayer.Category. */
  readonly category?: string | undefined;
  /** IfcMaterialLayer.IsVentilated is not FALSE: the layer is air. */
  readonly isAir?: boolean | undefined;
}

export interface BuiltOf {
  readonly construction: Construction;
  /** One for each layer; undefined where neither words nor categories tell. */
  readonly roles: readonly (LayerRole | undefined)[];
  /** Boards before and after the frame of a stud wall. */
  readonly boards: readonly [number, number] | undefined;
}

interface Layer {
  readonly material: string;
  readonly kind: LayerKind | undefined;
  readonly construction: Construction | undefined;
  /** Category LoadBearing. */
  readonly isBearing: boolean;
  /** Category of a finish or of insulation: brick may be a cladding. */
  readonly isClad: boolean;
}

type Stretch = readonly [from: number, to: number];

const FRAMED: readonly Construction[] = ['steelStud', 'timberStud', 'shaftWall'];

/**
 * @param isOrdered the layers lie one on the other as they are listed; a list of materials has no order
 * @param names of the barrier and of its type
 */
export function builtOf(
  texts: readonly LayerText[],
  isOrdered: boolean,
  names: readonly string[],
  table: readonly ConstructionWords[],
): BuiltOf {
  const layers = texts.map((text) => layerOf(text, table));
  const construction = classOf(layers, names, table);
  const own = ownLayers(layers, construction, table);
  if (!FRAMED.includes(construction)) {
    const leaf = own.length > 0 ? withBeside(layers, own, isOrdered ? besideOf(construction, table) : []) : [];
    // The layers of a panel are its sheets and what they are filled with.
    const open = construction === 'sandwichPanel' ? allButFixed : hints;
    return { construction, roles: leaf.length > 0 ? rolesAround(layers, leaf) : open(layers), boards: undefined };
  }
  if (!isOrdered) return { construction, roles: allButFixed(layers), boards: undefined };
  const frames = own.length > 0 ? own : boardedCore(layers);
  if (frames.length === 0) return { construction, roles: hints(layers), boards: undefined };
  const leaves = framedLeaves(layers, frames);
  const leaf = leaves.flatMap(([from, to]) => layers.map((_, i) => i).filter((i) => i >= from && i <= to));
  const roles = openWhereBare(layers, rolesAround(layers, leaf), frames, leaves);
  const boards = roles.includes(undefined) ? undefined : boardsOf(layers, frames, leaves);
  return { construction, roles, boards };
}

/** Words first; a category where they say nothing, since boards are called finishes too. */
function layerOf({ material, category = '', isAir }: LayerText, table: readonly ConstructionWords[]): Layer {
  const row = rowsFor(material, table)[0];
  const plain = plainWords(category);
  const isFinish = plain.includes('finish');
  const isInsulation = plain.includes('insulation');
  const byCategory = isFinish ? 'finish' : isInsulation ? 'insulation' : undefined;
  return {
    material,
    kind: isAir ? 'air' : row ? row.layer : byCategory,
    construction: isAir ? undefined : row?.construction,
    isBearing: !isAir && plain.replaceAll(' ', '').includes('loadbearing') && !plain.startsWith('non'),
    isClad: isFinish || isInsulation,
  };
}

/** Of the layers that bear load, else of those that are no cladding, else of all; then of the names. */
function classOf(layers: readonly Layer[], names: readonly string[], table: readonly ConstructionWords[]) {
  const solid = layers.filter(({ kind }) => kind === undefined);
  const pools = [solid.filter(({ isBearing }) => isBearing), solid.filter(({ isClad }) => !isClad), layers];
  const textsOf = (pool: readonly Layer[]) => pool.filter(({ kind }) => kind !== 'air').map(({ material }) => material);
  const telling = pools.map(textsOf).find((texts) => texts.some((text) => constructionIn(text, table)));
  return constructionOf(telling ?? [], names, table);
}

/** Which layers are of the barrier's class; where one or more bear load, only these. */
function ownLayers(
  layers: readonly Layer[],
  construction: Construction,
  table: readonly ConstructionWords[],
): number[] {
  const all = layers.map((_, i) => i);
  const bearing = all.filter((i) => layers[i]!.isBearing && layers[i]!.kind === undefined);
  if (bearing.length > 0 && !FRAMED.includes(construction)) return bearing;
  if (construction === 'unknown') return [];
  const classes = FRAMED.includes(construction) ? [construction, ...besideOf(construction, table)] : [construction];
  const isOf = (one: Construction | undefined) => one !== undefined && classes.includes(one);
  const plain = all.filter((i) => isOf(layers[i]!.construction) && !layers[i]!.isClad);
  if (plain.length > 0) return plain;
  // What is all called a cladding or a finish, but is all there is of the class.
  const any = all.filter((i) => layers[i]!.kind !== 'air' && isOf(constructionIn(layers[i]!.material, table)));
  if (any.length > 0 || layers.length !== 1) return any;
  // One layer that says nothing, in a barrier whose name says what it is.
  return layers[0]!.kind === undefined ? [0] : [];
}

/** Concrete on a deck is cast with it; concrete beyond insulation is not. */
function withBeside(layers: readonly Layer[], own: readonly number[], beside: readonly Construction[]): number[] {
  const leaf = new Set(own);
  const grow = (i: number, step: 1 | -1): void => {
    for (let at = i + step; !leaf.has(at) && isBeside(layers[at], beside); at += step) leaf.add(at);
  };
  for (const i of own) for (const step of [1, -1] as const) grow(i, step);
  return [...leaf].sort((a, b) => a - b);
}

const isBeside = (layer: Layer | undefined, beside: readonly Construction[]): boolean =>
  layer?.construction !== undefined && !layer.isClad && beside.includes(layer.construction);

const rolesAround = (layers: readonly Layer[], leaf: readonly number[]): LayerRole[] =>
  layers.map(({ kind }, i) => (leaf.includes(i) ? 'leaf' : kind === 'air' ? 'cavity' : 'lining'));

/** Where the leaf can't be told, what is known not to be it. */
const hints = (layers: readonly Layer[]): (LayerRole | undefined)[] =>
  layers.map(({ kind }) => (kind === 'air' ? 'cavity' : kind && kind !== 'board' ? 'lining' : undefined));

/** All but what is fixed on a finished wall. */
const allButFixed = (layers: readonly Layer[]): LayerRole[] =>
  layers.map(({ kind }) => (kind === 'air' ? 'cavity' : kind === 'finish' || kind === 'furring' ? 'lining' : 'leaf'));

/** The frame of a wall that only its name calls one: the one thing between its boards, insulation as a rule. */
function boardedCore(layers: readonly Layer[]): number[] {
  const boards = layers.flatMap(({ kind }, i) => (kind === 'board' ? [i] : []));
  const core = layers.flatMap(({ kind }, i) => (i > boards[0]! && i < boards.at(-1)! && kind !== 'board' ? [i] : []));
  return core.length > 0 && core.at(-1)! - core[0]! === core.length - 1 ? core : [];
}

/** From board to board; two frames are two leaves where each has boards of its own towards the other. */
function framedLeaves(layers: readonly Layer[], frames: readonly number[]): Stretch[] {
  const spans: [number, number][] = [];
  for (const at of frames) {
    const last = spans.at(-1);
    if (last && !isParted(layers.slice(last[1] + 1, at))) last[1] = at;
    else spans.push([at, at]);
  }
  return spans.map(([from, to]) => [withBoards(layers, from, -1), withBoards(layers, to, 1)]);
}

/** Boards, something else, boards. */
function isParted(between: readonly Layer[]): boolean {
  const boards = between.flatMap(({ kind }, i) => (kind === 'board' ? [i] : []));
  return between.some(({ kind }, i) => kind !== 'board' && i > boards[0]! && i < boards.at(-1)!);
}

/** The boards nearest to the frame, on resilient bars too; what is fixed on them is no part of the wall. */
function withBoards(layers: readonly Layer[], edge: number, step: 1 | -1): number {
  let at = edge + step;
  const isOnFrame = ({ kind, construction }: Layer) => kind !== 'board' && kind !== 'finish' && !construction;
  while (layers[at] && isOnFrame(layers[at]!)) at += step;
  if (layers[at]?.kind !== 'board') return edge;
  while (layers[at + step]?.kind === 'board') at += step;
  return at;
}

/** On a side of the frame where no word tells of a board, what no word tells of may be one. */
function openWhereBare(
  layers: readonly Layer[],
  roles: readonly LayerRole[],
  frames: readonly number[],
  leaves: readonly Stretch[],
): (LayerRole | undefined)[] {
  const [first, last] = [leaves[0]![0], leaves.at(-1)![1]];
  const isOpen = (i: number) => (i < first && first === frames[0]) || (i > last && last === frames.at(-1));
  return roles.map((role, i) => (isOpen(i) && !layers[i]!.kind && !layers[i]!.construction ? undefined : role));
}

function boardsOf(layers: readonly Layer[], frames: readonly number[], leaves: readonly Stretch[]) {
  const [leaf] = leaves;
  if (!leaf || leaves.length > 1) return undefined;
  const count = (is: (i: number) => boolean): number =>
    layers.filter(({ kind }, i) => kind === 'board' && i >= leaf[0] && i <= leaf[1] && is(i)).length;
  return [count((i) => i < frames[0]!), count((i) => i > frames.at(-1)!)] as const;
}
