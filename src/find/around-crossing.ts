/** What stands round the opening of a crossing, looked for near it alone. */
import { type Box, boxOf, boxOfPoints, grown } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { fromPlane } from '../geometry/frame.js';
import { area } from '../geometry/polygon.js';
import type { Barrier, Column, Federation, Penetration, Polygon } from '../model.js';
import { AROUND_REACH } from '../tolerances.js';
import { aroundOpening, type Surroundings } from './around-opening.js';
import type { Crossed } from './crossed.js';
import { type Intrusion, outlinesOf } from './intrusions.js';
import type { Leaf } from './leaves.js';
import type { Plate } from './plates.js';
import { roundLength } from './rounding.js';

export type SurroundingsIn = (box: Box) => Surroundings;

export function surroundingsOf({ barriers, columns }: Federation): SurroundingsIn {
  const placed = <T extends Barrier | Column>(elements: readonly T[]) =>
    boxIndex(elements.map((element) => ({ element, box: boxOf(element.bodies) })));
  const [barriersIn, columnsIn] = [placed(barriers), placed(columns)];
  return (box) => ({
    near: box,
    barriers: barriersIn(box).map(({ element }) => element),
    columns: columnsIn(box).map(({ element }) => element),
  });
}

export function aroundCrossing({ stack }: Crossed, surroundingsIn: SurroundingsIn): Penetration['around'] {
  const leaf = stack.leaves.find((one) => one.opening) ?? stack.leaves[0];
  const { plate, intrusions } = leaf.group;
  const outline = leaf.opening?.outlineAt(0, leaf.centre) ?? largestOf(intrusions, plate);
  return outline ? aroundIn(leaf, outline, surroundingsIn) : [];
}

/** What stands round an outline in the plane of a leaf. */
export function aroundIn(leaf: Leaf, outline: Polygon, surroundingsIn: SurroundingsIn): Penetration['around'] {
  const { gross, plate } = leaf.group;
  const near = grown(boxOfPoints(outline.map((p) => fromPlane(plate.frame, p))), AROUND_REACH);
  return aroundOpening(gross, plate, outline, leaf.opening?.element, surroundingsIn(near)).map((one) => ({
    ...one,
    distance: roundLength(one.distance),
  }));
}

const largestOf = (intrusions: readonly Intrusion[], plate: Plate): Polygon | undefined =>
  intrusions.flatMap((i) => outlinesOf(i.piece, plate, 0)).sort((a, b) => area(b) - area(a))[0];
