/** Dampers at a crossing: what they say of themselves, where they sit in the barrier, what stands beside them. */

import { refOf } from '../element-refs.js';
import { extent } from '../geometry/section.js';
import { add, scale } from '../geometry/vector.js';
import type { AirElement, AroundKind, DamperFacts, DamperOutside, DuctSize, Vec3 } from '../model.js';
import { DAMPER_REACH, FACE_INSET, NOMINAL } from '../tolerances.js';
import type { AccessFinder } from './access.js';
import { aroundIn, type SurroundingsIn } from './around-crossing.js';
import { sizesAcross } from './crossing-section.js';
import { outlinesOf } from './intrusions.js';
import { type Leaf, type LeafStack, piecesOf } from './leaves.js';
import type { Piece } from './pieces.js';
import { inSolid, type Plate } from './plates.js';
import { roundLength } from './rounding.js';

/** What lies round the dampers of a federation. */
export interface DamperContext {
  readonly surroundingsIn: SurroundingsIn;
  readonly accessTo: AccessFinder;
  /** What a piece is joined with. */
  readonly joinedTo: (piece: Piece) => readonly Piece[];
  /** What is in some barrier. */
  readonly crossing: ReadonlySet<AirElement>;
}

export function dampersOf(stack: LeafStack, context: DamperContext): DamperFacts[] {
  // Other leaves may stand before the one that is rated; a damper belongs in that one.
  const [leaf] = stack.leaves;
  return piecesOf(stack).flatMap((piece) => describe(piece, leaf, context));
}

function describe(piece: Piece, leaf: Leaf, context: DamperContext): DamperFacts[] {
  const { damper, name, bodies } = { ...piece.element, bodies: piece.bodies };
  if (!damper) return [];
  const { plate } = leaf.group;
  const [low, high] = extent(bodies, plate.frame.origin, plate.frame.z);
  const { typeName, orientation, fireSides, actuation, purpose, rating } = damper;
  return [
    {
      ...refOf(piece.element),
      ...{ name, typeName: typeName ?? null, purpose, rating },
      orientation: orientation ?? null,
      fireSides: fireSides ?? null,
      actuation: actuation
        ? {
            type: actuation.type ?? null,
            closure: actuation.closure ?? null,
            control: actuation.control ?? null,
            fusibleLink: actuation.fusibleLink ?? null,
          }
        : null,
      size: sizeOf(piece, plate, context.joinedTo(piece)),
      offset: roundLength((low + high) / 2),
      standsOut: [roundLength(-plate.thickness / 2 - low), roundLength(high - plate.thickness / 2)],
      construction: constructionBeside(piece, leaf, context.surroundingsIn),
      access: context.accessTo(piece),
    },
  ];
}

type Sizes = { readonly [K in keyof DuctSize]: number | undefined };

/** Casings are drawn larger than the air space, so what is stated, or the duct that is joined, comes before them. */
function sizeOf(piece: Piece, plate: Plate, joined: readonly Piece[]): DamperFacts['size'] {
  const { straight, wall, element } = piece;
  const inside = straight && wall.sections.inside && sizesAcross(wall.sections.inside, straight, plate);
  if (inside) return { ...rounded(inside), from: 'geometry' };
  const casing = straight && straight.fit.shape !== 'unknown' ? sizesAcross(straight.fit, straight, plate) : undefined;
  const { width, height, diameter } = element.stated;
  if (diameter !== undefined)
    return { ...rounded({ width: undefined, height: undefined, diameter }), from: 'property' };
  if (width !== undefined && height !== undefined)
    return { ...rounded(lyingAs({ width, height, diameter }, casing)), from: 'property' };
  const duct = agreedSection(joined, plate);
  if (duct) return { ...rounded(duct), from: 'duct' };
  return casing ? { ...rounded(casing), from: 'casing' } : null;
}

/** Stated sizes say nothing of how the damper was turned; the casing shows which side lies across. */
function lyingAs({ width = 0, height = 0, diameter }: Sizes, casing: Sizes | undefined): Sizes {
  const turned = casing?.width !== undefined && (casing.width - casing.height!) * (width - height) < 0;
  return turned ? { width: height, height: width, diameter } : { width, height, diameter };
}

/** Of the straight ducts that it is joined with; undefined where there is none, or they differ. */
function agreedSection(joined: readonly Piece[], plate: Plate): Sizes | undefined {
  const sections = joined.flatMap(({ straight, wall, element }) => {
    const fit = wall.sections.inside ?? wall.sections.sheet;
    return straight && fit && element.kind === 'segment' ? [sizesAcross(fit, straight, plate)] : [];
  });
  const [first] = sections;
  const near = (a: number | undefined, b: number | undefined) =>
    a === b || (a !== undefined && b !== undefined && Math.abs(a - b) <= NOMINAL);
  const agree = sections.every((one) =>
    (['width', 'height', 'diameter'] as const).every((name) => near(one[name], first?.[name])),
  );
  return agree ? first : undefined;
}

const rounded = ({ width, height, diameter }: Sizes): DuctSize => ({
  width: width === undefined ? null : roundLength(width),
  height: height === undefined ? null : roundLength(height),
  diameter: diameter === undefined ? null : roundLength(diameter),
});

const CONSTRUCTION: readonly AroundKind[] = ['slab', 'corner', 'column'];

/** Measured from the casing, straight out of each of its sides: what stands off a corner of it alone is not seen. */
function constructionBeside(piece: Piece, leaf: Leaf, surroundingsIn: SurroundingsIn): DamperFacts['construction'] {
  const { plate } = leaf.group;
  const [low, high] = extent(piece.bodies, plate.frame.origin, plate.frame.z);
  const within = Math.max(low + FACE_INSET, Math.min(high - FACE_INSET, 0));
  const [outline] = outlinesOf(piece, plate, inSolid(plate, within));
  if (!outline) return null;
  const beside = aroundIn(leaf, outline, surroundingsIn).filter(({ kind }) => CONSTRUCTION.includes(kind));
  return beside.reduce<DamperFacts['construction']>(
    (nearest, one) => (nearest === null || one.distance < nearest.distance ? one : nearest),
    null,
  );
}

/** Looked for along the ductwork on both sides, no further than a damper for this barrier would stand. */
export function damperOutside(stack: LeafStack, { joinedTo, crossing }: DamperContext): DamperOutside | null {
  const own = piecesOf(stack);
  if (stack.leaves[0].group.crossing !== 'through' || own.some((piece) => mayHoldFire(piece))) return null;
  const { plate } = stack;
  const seen = new Set(own);
  let nearest: DamperOutside | null = null;
  for (const piece of seen) {
    const distance = distanceFrom(plate, piece);
    if (distance > DAMPER_REACH) continue;
    const { element } = piece;
    const { damper } = element;
    const isFor = damper && holdsFire(piece) && distance > 0 && !crossing.has(element);
    if (isFor && distance < (nearest?.distance ?? Infinity))
      nearest = { ...refOf(element), name: element.name, purpose: damper.purpose, distance: roundLength(distance) };
    // A set is walked in the order in which it grows.
    for (const next of joinedTo(piece)) seen.add(next);
  }
  return nearest;
}

const holdsFire = ({ element }: Piece): boolean =>
  element.damper?.purpose === 'fire' || element.damper?.purpose === 'fireSmoke';
const mayHoldFire = (piece: Piece): boolean => holdsFire(piece) || piece.element.damper?.purpose === 'unknown';

/** From the nearer face along the normal; 0 for what reaches into the barrier's thickness. */
function distanceFrom({ frame, thickness }: Plate, { bodies }: Piece): number {
  const face = (side: 1 | -1): Vec3 => add(frame.origin, scale(frame.z, (side * thickness) / 2));
  const [low] = extent(bodies, face(1), frame.z);
  const [, high] = extent(bodies, face(-1), frame.z);
  return Math.max(0, low, -high);
}
