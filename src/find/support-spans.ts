/** Lengths of ductwork between its supports, along the axes of its pieces. */
import { fileUnder } from '../collect.js';
import { distance, dot, lerp, lineAngle, sub, Z } from '../geometry/vector.js';
import type { Penetration, Run, StretchPart, SupportFacts, SupportSpan, Vec3 } from '../model.js';
import { CONTACT, UPRIGHT } from '../tolerances.js';
import { roundLength } from './rounding.js';

export interface PlacedSupport {
  readonly facts: Omit<SupportFacts, 'carried'>;
  /** World coordinates. */
  readonly at: Vec3;
  readonly along: number;
}

interface Node {
  readonly at: Vec3;
  readonly edges: Edge[];
  /** Of the piece that it lies on. */
  readonly isUpright: boolean;
  support?: number;
  /** Of the barrier whose middle plane lies here. */
  penetration?: string;
}

interface Edge {
  readonly to: Node;
  readonly length: number;
  readonly isUpright: boolean;
  readonly part: SupportSpan['parts'][number] | undefined;
}

interface Way {
  readonly node: Node;
  readonly length: number;
  readonly edges: readonly Edge[];
  /** Where the step before it stood. */
  readonly middle: Vec3;
}

export interface Walked {
  readonly spans: readonly SupportSpan[];
  /** For each support; null: not known. */
  readonly carried: readonly (number | null)[];
}

export function spansOf(
  runs: readonly Run[],
  supports: readonly PlacedSupport[],
  penetrations: readonly Penetration[],
): Walked {
  const byId = new Map(penetrations.map((penetration) => [penetration.id, penetration]));
  const carried: (number | null)[] = supports.map(() => 0);
  const spans = runs.flatMap((run) => spansOfRun(run, supports, byId, carried));
  return { spans, carried: carried.map((value) => (value === null ? null : roundLength(value))) };
}

function spansOfRun(
  run: Run,
  supports: readonly PlacedSupport[],
  penetrations: ReadonlyMap<string, Penetration>,
  carried: (number | null)[],
): SupportSpan[] {
  const nodes = graphOf(run, supports, penetrations);
  const spans: SupportSpan[] = [];
  const nameOf = ({ support }: Node): string[] => (support === undefined ? [] : [supports[support]!.facts.id]);
  const addSpan = (kind: SupportSpan['kind'], from: Node, way: Way, penetration: string | null, less = 0): void => {
    spans.push({
      ...{ kind, run: run.id, penetration, parts: partsOf(way.edges) },
      length: roundLength(Math.max(0, way.length - less)),
      supports: [...nameOf(from), ...nameOf(way.node)],
      at: way.middle.map(roundLength) as unknown as Vec3,
    });
  };
  for (const node of nodes) {
    const own = node.support;
    if (own !== undefined) {
      for (const isUpright of [false, true]) {
        for (const way of waysFrom(node, (edge) => edge.isUpright === isUpright)) {
          const other = way.node.support;
          const isEnd = other === undefined;
          if (isEnd && isUpright) addSpan('riserEnd', node, way, null);
          else if (!isEnd && other > own) addSpan(isUpright ? 'riser' : 'supports', node, way, null);
          if (isUpright) continue;
          const leads = way.node.edges.some((edge) => edge.isUpright);
          if (isEnd && !leads) addSpan('end', node, way, null);
          // What rises or falls from here may hang on this support, and how much of it nobody says.
          const load = isEnd ? (leads ? null : way.length) : way.length / 2;
          carried[own] = load === null || carried[own] === null ? null : carried[own]! + load;
        }
      }
    }
    const penetration = node.penetration === undefined ? undefined : penetrations.get(node.penetration);
    if (!penetration || penetration.barrier.thickness === null) continue;
    const half = penetration.barrier.thickness / 2 / Math.cos((penetration.skew * Math.PI) / 180);
    // A node of a barrier belongs to the stretch on one side of it; the way across it is closed here.
    const ways = waysFrom(node, (edge) => !edge.isUpright && edge.part !== undefined);
    const [nearest] = ways
      .filter(({ edges }) => edges.length > 0)
      .sort(
        (a, b) => Number(b.node.support !== undefined) - Number(a.node.support !== undefined) || a.length - b.length,
      );
    if (nearest) addSpan('barrier', node, nearest, penetration.id, half);
  }
  return [...spans, ...bareRisers(run, nodes)];
}

const partsOf = (edges: readonly Edge[]): SupportSpan['parts'] => [
  ...new Map(edges.flatMap(({ part }) => (part ? [[`${part.stretch} ${part.part}`, part] as const] : []))).values(),
];

/** Upright ductwork without a single support, from its foot to its head. */
function bareRisers(run: Run, nodes: readonly Node[]): SupportSpan[] {
  const seen = new Set<Node>();
  const spans: SupportSpan[] = [];
  for (const start of nodes) {
    if (seen.has(start) || !start.edges.some((edge) => edge.isUpright)) continue;
    const group: Node[] = [];
    const open = [start];
    const edges = new Set<Edge>();
    while (open.length > 0) {
      const node = open.pop()!;
      if (seen.has(node)) continue;
      seen.add(node);
      group.push(node);
      for (const edge of node.edges.filter(({ isUpright }) => isUpright)) {
        edges.add(edge);
        open.push(edge.to);
      }
    }
    if (group.some(({ support }) => support !== undefined)) continue;
    const heights = group.map(({ at }) => at[2]);
    spans.push({
      ...{ kind: 'riser', run: run.id, supports: [], penetration: null, parts: partsOf([...edges]) },
      length: roundLength(Math.max(...heights) - Math.min(...heights)),
      at: start.at.map(roundLength) as unknown as Vec3,
    });
  }
  return spans;
}

/** The shortest ways from a node to the next supports, and to where the ductwork ends without one. */
function waysFrom(start: Node, isOpen: (edge: Edge) => boolean): Way[] {
  const done = new Set<Node>([start]);
  const ends: Way[] = [];
  let open = start.edges
    .filter(isOpen)
    .map((edge) => step({ node: start, length: 0, edges: [], middle: start.at }, edge));
  while (open.length > 0) {
    open = open.sort((a, b) => a.length - b.length);
    const way = open.shift()!;
    if (done.has(way.node)) continue;
    done.add(way.node);
    const on =
      way.node.support === undefined ? way.node.edges.filter((edge) => isOpen(edge) && !done.has(edge.to)) : [];
    if (on.length === 0) ends.push(way);
    open.push(...on.map((edge) => step(way, edge)));
  }
  return ends;
}

const step = (way: Way, edge: Edge): Way => ({
  node: edge.to,
  length: way.length + edge.length,
  edges: [...way.edges, edge],
  middle: lerp(way.node.at, edge.to.at, 0.5),
});

const ofPart = ({ from, to }: StretchPart, p: Vec3): number => {
  const long = distance(from, to);
  if (long === 0) return 0;
  return Math.max(0, Math.min(long, dot(sub(p, from), sub(to, from)) / long));
};
const placeOn = (part: StretchPart, along: number): Vec3 => {
  const long = distance(part.from, part.to);
  return long === 0 ? part.from : lerp(part.from, part.to, along / long);
};

/** Pieces as lines with their joints, supports and barriers on them. */
function graphOf(run: Run, supports: readonly PlacedSupport[], penetrations: ReadonlyMap<string, Penetration>): Node[] {
  const stations = new Map<StretchPart, { along: number; node: Node }[]>();
  const all: Node[] = [];
  const station = (part: StretchPart, along: number): Node => {
    const same = stations.get(part)?.find((one) => Math.abs(one.along - along) < CONTACT);
    if (same) return same.node;
    const node: Node = { at: placeOn(part, along), edges: [], isUpright: isUpright(part) };
    all.push(node);
    fileUnder(stations, part, { along, node });
    return node;
  };
  const join = (a: Node, b: Node, length: number, isUpright: boolean, part: Edge['part']): void => {
    a.edges.push({ to: b, length, isUpright, part });
    b.edges.push({ to: a, length, isUpright, part });
  };
  const across = new Map<string, Node[]>();
  const links: (readonly [Node, Node, boolean, Edge['part']])[] = [];
  for (const stretch of run.stretches) {
    for (const [i, part] of stretch.parts.entries()) {
      for (const j of part.joins.filter((other) => other > i)) {
        const other = stretch.parts[j]!;
        const [a, b] = nearest(part, other);
        links.push([
          station(part, a),
          station(other, b),
          isUpright(part) && isUpright(other),
          { stretch: stretch.id, part: i },
        ]);
      }
      station(part, 0);
      station(part, distance(part.from, part.to));
    }
    for (const { penetration, part } of stretch.ends) {
      const own = stretch.parts[part]!;
      const at = penetrations.get(penetration)?.position;
      if (!at) continue;
      const node = station(own, ofPart(own, at));
      node.penetration = penetration;
      fileUnder(across, penetration, node);
    }
  }
  for (const [i, { facts, at }] of supports.entries()) {
    if (facts.run !== run.id) continue;
    const own = run.stretches
      .flatMap(({ parts }) => parts)
      .filter(({ globalId, model }) => globalId === facts.carries.globalId && model === facts.carries.model)
      .map((part) => ({ part, along: ofPart(part, at) }))
      .sort((a, b) => distance(placeOn(a.part, a.along), at) - distance(placeOn(b.part, b.along), at))[0];
    if (own) station(own.part, own.along).support = i;
  }
  for (const [a, b, upright, part] of links) join(a, b, distance(a.at, b.at), upright, part);
  for (const nodes of across.values())
    for (const node of nodes.slice(1)) {
      const isUp = nodes[0]!.isUpright && node.isUpright;
      join(nodes[0]!, node, 0, isUp, undefined);
    }
  for (const stretch of run.stretches)
    for (const [i, part] of stretch.parts.entries()) {
      const inOrder = (stations.get(part) ?? []).sort((a, b) => a.along - b.along);
      for (const [k, { along, node }] of inOrder.slice(1).entries()) {
        const before = inOrder[k]!;
        join(before.node, node, along - before.along, isUpright(part), { stretch: stretch.id, part: i });
      }
    }
  return all;
}

const isUpright = ({ from, to }: StretchPart): boolean =>
  distance(from, to) > 0 && lineAngle(sub(to, from), Z) < 90 - UPRIGHT;

/** Where two joined pieces are nearest: an end of one on the line of the other. */
function nearest(a: StretchPart, b: StretchPart): readonly [number, number] {
  const ends = (part: StretchPart): readonly Vec3[] => [part.from, part.to];
  const tried = [
    ...ends(a).map((p) => [ofPart(a, p), ofPart(b, p)] as const),
    ...ends(b).map((p) => [ofPart(a, p), ofPart(b, p)] as const),
  ];
  const off = ([x, y]: readonly [number, number]): number => distance(placeOn(a, x), placeOn(b, y));
  return tried.reduce((best, one) => (off(one) < off(best) ? one : best));
}
