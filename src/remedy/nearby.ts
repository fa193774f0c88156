/** What of a building lies in boxes, by index. */
import { type Box, boxOfElement } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import type { Body, Federation } from '../model.js';

const LISTS = [
  'airElements',
  'barriers',
  'otherServices',
  'columns',
  'obstacles',
  'supports',
  'spaces',
  'accessCovers',
] as const;

type List = (typeof LISTS)[number];

type Listed<L extends List> = NonNullable<Federation[L]>[number];

/** Each in the order of its list. */
export type Nearby = { readonly [L in List]: (boxes: readonly Box[]) => Listed<L>[] };

export const nearbyIn = (federation: Federation): Nearby =>
  Object.fromEntries(LISTS.map((list) => [list, inBoxes(federation[list] ?? [])])) as Nearby;

function inBoxes(elements: readonly { readonly bodies: readonly Body[] }[]) {
  const index = boxIndex(elements.map((element, order) => ({ element, order, box: boxOfElement(element) })));
  return (boxes: readonly Box[]) =>
    [...new Set(boxes.flatMap(index))].sort((a, b) => a.order - b.order).map(({ element }) => element);
}
