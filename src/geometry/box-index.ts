/** A static index of boxes: which of them meet another. */
import Flatbush from 'flatbush';
import { type Box, boxesMeet } from './box.js';

/** About the height of a storey, mm: what stands over another on plan is told apart by the bands that it reaches into. */
const BAND = 4000;
/** However high a model is. */
const MOST_BANDS = 1000;

/** Answers come in the order of the list. */
export function boxIndex<T extends { readonly box: Box }>(items: readonly T[]): (box: Box) => T[] {
  let [lowest, highest] = [Infinity, -Infinity];
  for (const { box } of items) {
    if (!isSome(box)) continue;
    lowest = Math.min(lowest, box.min[2]);
    highest = Math.max(highest, box.max[2]);
  }
  if (lowest > highest) return () => [];
  const height = Math.max(BAND, (highest - lowest) / MOST_BANDS);
  const last = Math.floor((highest - lowest) / height);
  const bandAt = (z: number): number => Math.max(0, Math.min(last, Math.floor((z - lowest) / height)));
  const members: number[][] = Array.from({ length: last + 1 }, () => []);
  for (const [i, { box }] of items.entries()) {
    if (!isSome(box)) continue;
    for (let band = bandAt(box.min[2]); band <= bandAt(box.max[2]); band++) members[band]!.push(i);
  }
  const bands = members.map((list) => onPlan(items, list));
  return (box) => {
    const [from, to] = [bandAt(box.min[2]), bandAt(box.max[2])];
    let found = bands[from]!(box);
    for (let band = from + 1; band <= to; band++) found = found.concat(bands[band]!(box));
    found.sort((a, b) => a - b);
    const isRepeated = (i: number, at: number): boolean => at > 0 && found[at - 1] === i;
    return found.filter((i, at) => !isRepeated(i, at) && boxesMeet(items[i]!.box, box)).map((i) => items[i]!);
  };
}

/** What has no body has a box that ends before it begins. */
const isSome = ({ min, max }: Box): boolean => min[0] <= max[0] && min[1] <= max[1] && min[2] <= max[2];

/** Numbers of those of the list whose boxes meet on plan. */
function onPlan(items: readonly { readonly box: Box }[], list: readonly number[]): (box: Box) => number[] {
  if (list.length === 0) return () => [];
  const index = new Flatbush(list.length);
  for (const i of list) {
    const { min, max } = items[i]!.box;
    index.add(min[0], min[1], max[0], max[1]);
  }
  index.finish();
  return ({ min, max }) => index.search(min[0], min[1], max[0], max[1]).map((at) => list[at]!);
}
