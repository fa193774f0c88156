/** How far it is along a run from one stop to the next, and from bends to panels. */
import type { Walk, WalkNode, Way } from './access-walk.js';

export interface WalkGap {
  readonly length: number;
  /** The longest stretch of it that is level. */
  readonly level: number;
  /** From one stop to the other; the way of a node goes to the next one. */
  readonly path: readonly { readonly node: WalkNode; readonly way: Way | null }[];
}

interface Reached {
  readonly from: WalkNode;
  readonly length: number;
  /** The way back towards where it was reached from. */
  readonly back: { readonly node: WalkNode; readonly way: Way } | null;
}

/** The nearest of the starts to every node (Dijkstra, all starts at once). */
export function reachedFrom(starts: readonly WalkNode[]): Map<WalkNode, Reached> {
  const reached = new Map<WalkNode, Reached>();
  const open = new Map<WalkNode, Reached>(starts.map((node) => [node, { from: node, length: 0, back: null }]));
  while (open.size > 0) {
    let next: readonly [WalkNode, Reached] | undefined;
    for (const entry of open) if (!next || entry[1].length < next[1].length) next = entry;
    const [node, here] = next!;
    open.delete(node);
    reached.set(node, here);
    for (const way of node.ways) {
      if (reached.has(way.to)) continue;
      const total = here.length + way.length;
      const known = open.get(way.to);
      if (!known || total < known.length) open.set(way.to, { from: here.from, length: total, back: { node, way } });
    }
  }
  return reached;
}

/**
 * The shortest gaps that join all stops of a run (their minimum spanning tree by the way along the ducts): on a run
 * without branches each stop and the next; at branches no stop is held against one that is further than it need be.
 */
export function gapsOf({ nodes }: Walk): WalkGap[] {
  const stops = nodes.filter(({ stop }) => stop !== null);
  const reached = reachedFrom(stops);
  const groupOf = new Map(stops.map((stop) => [stop, stop]));
  const root = (stop: WalkNode): WalkNode => {
    const above = groupOf.get(stop)!;
    if (above === stop) return stop;
    const top = root(above);
    groupOf.set(stop, top);
    return top;
  };
  return [...reached]
    .flatMap(([node, here]) =>
      node.ways.flatMap((way) => {
        const there = reached.get(way.to);
        return there && there.from !== here.from
          ? [{ node, way, here, there, length: here.length + way.length + there.length }]
          : [];
      }),
    )
    .sort((a, b) => a.length - b.length)
    .flatMap(({ node, way, here, there, length }) => {
      const [a, b] = [root(here.from), root(there.from)];
      if (a === b) return [];
      groupOf.set(a, b);
      const path = pathOver(node, way, reached);
      return [{ length, level: longestLevel(path), path }];
    });
}

function pathOver(node: WalkNode, over: Way, reached: ReadonlyMap<WalkNode, Reached>): WalkGap['path'] {
  const before: { node: WalkNode; way: Way | null }[] = [{ node, way: over }];
  for (let at = reached.get(node)!.back; at; at = reached.get(at.node)!.back) before.unshift(at);
  const after: { node: WalkNode; way: Way | null }[] = [];
  let last = over.to;
  for (let at = reached.get(last)!.back; at; at = reached.get(at.node)!.back) {
    after.push({ node: last, way: { ...at.way, to: at.node } });
    last = at.node;
  }
  return [...before, ...after, { node: last, way: null }];
}

function longestLevel(path: WalkGap['path']): number {
  let [longest, current] = [0, 0];
  for (const { way } of path) {
    current = way?.isLevel ? current + way.length : 0;
    longest = Math.max(longest, current);
  }
  return longest;
}
