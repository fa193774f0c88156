/** What belongs together because it is joined, directly or through others. */
import { fileUnder } from './collect.js';

/** Groups in the order of their first items, items in the order of the list; pairs of what is not listed count for nothing. */
export function groupsJoined<T>(items: readonly T[], pairs: Iterable<readonly [T, T]>): T[][] {
  const parent = new Map(items.map((item) => [item, item]));
  const root = (item: T): T => {
    let at = item;
    for (let up = parent.get(at)!; up !== at; up = parent.get(at)!) {
      // Half the way is cut off each time, so that long chains stay quick.
      parent.set(at, parent.get(up)!);
      at = up;
    }
    return at;
  };
  for (const [a, b] of pairs) if (parent.has(a) && parent.has(b)) parent.set(root(a), root(b));
  const groups = new Map<T, T[]>();
  for (const item of items) fileUnder(groups, root(item), item);
  return [...groups.values()];
}
