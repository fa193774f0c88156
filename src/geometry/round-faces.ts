/**
 * Upright faces that are parts of cylinders. A curved wall comes as flat facets, from arcs that were drawn as chords or
 * from a mesh; the corners of the facets lie on the true circle, so the circle is exact where a facet is not.
 */
import { fileUnder } from '../collect.js';
import type { Body, Vec2 } from '../model.js';
import { CONTACT, FACET_TURN, ROUND_RESIDUAL } from '../tolerances.js';
import { type Face, mergedFaces, rawFaces } from './faces.js';
import { cross2, dot2, length2, sub2 } from './vector.js';

/** Upright cylinders about one axis. */
export interface RoundFaces {
  /** Where the axis stands on plan. */
  readonly centre: Vec2;
  /** Ascending. */
  readonly radii: readonly number[];
  /** How far the middle of a facet lies within the true circle, at the most. */
  readonly chordError: number;
  /** The facets. */
  readonly faces: readonly Face[];
}

interface Arc {
  readonly centre: Vec2;
  readonly radius: number;
  readonly chordError: number;
  readonly faces: readonly Face[];
}

/** Fewer facets than this are a polygon, whatever circle they lie on. */
const LEAST_FACETS = 3;
/** Circles through neighbouring corners of one arc agree within this share. */
const SAME_RADIUS = 0.05;

/** Every face of the bodies: those that belong to cylinders together, the others with one plane merged, largest first. */
export function facesOf(bodies: readonly Body[]): { readonly flat: Face[]; readonly round: RoundFaces[] } {
  // The sides of a prism are its facets already; the triangles of a mesh are parts of them.
  const faces = bodies.flatMap((body) => (body.kind === 'prism' ? rawFaces(body) : mergedFaces(rawFaces(body))));
  const arcs = chains(faces.filter(({ trace }) => trace !== undefined)).flatMap(arcsOf);
  const groups = aboutOneAxis(arcs);
  const isRound = new Set(groups.flatMap((group) => group.faces));
  return { flat: mergedFaces(faces.filter((face) => !isRound.has(face))), round: groups };
}

/** Facets end to end: `faces[i]` goes from `points[i]` to `points[i + 1]`. */
interface Chain {
  readonly points: readonly Vec2[];
  readonly faces: readonly Face[];
  readonly isClosed: boolean;
}

function chains(faces: readonly Face[]): Chain[] {
  const nodeOf = nodeIndex();
  const links = faces.map(({ trace }) => [nodeOf(trace![0]), nodeOf(trace![1])] as const);
  const at = new Map<number, number[]>();
  links.forEach(([a, b], i) => {
    // A face that coincides with another (of the next layer) is the same facet.
    if (a === b || at.get(a)?.some((other) => links[other]!.includes(b))) return;
    for (const node of [a, b]) fileUnder(at, node, i);
  });
  const taken = new Set<number>();
  const follow = (from: number, node: number): { face: number; node: number }[] => {
    const steps: { face: number; node: number }[] = [];
    let [face, end] = [from, node];
    for (;;) {
      const next = at.get(end)!;
      const onward = next.length === 2 ? next.find((f) => f !== face && !taken.has(f)) : undefined;
      if (onward === undefined) return steps;
      taken.add(onward);
      const [a, b] = links[onward]!;
      end = a === end ? b : a;
      face = onward;
      steps.push({ face, node: end });
    }
  };
  const found: Chain[] = [];
  for (const [i, [a, b]] of links.entries()) {
    if (taken.has(i) || !at.get(a)?.includes(i)) continue;
    taken.add(i);
    const onward = follow(i, b);
    const back = follow(i, a).reverse();
    const nodes = [...back.map((s) => s.node), a, b, ...onward.map((s) => s.node)];
    found.push({
      points: nodes.map((node) => nodeOf.points[node]!),
      faces: [...back, { face: i }, ...onward].map((s) => faces[s.face]!),
      isClosed: nodes.length > 3 && nodes[0] === nodes.at(-1),
    });
  }
  return found;
}

/** Numbers points on plan; those within half of CONTACT of each other are one. */
function nodeIndex(): ((p: Vec2) => number) & { readonly points: readonly Vec2[] } {
  const points: Vec2[] = [];
  const cells = new Map<string, number[]>();
  const find = (p: Vec2): number => {
    const [cx, cy] = [Math.round(p[0] / CONTACT), Math.round(p[1] / CONTACT)];
    for (let x = cx - 1; x <= cx + 1; x++)
      for (let y = cy - 1; y <= cy + 1; y++)
        for (const i of cells.get(`${x},${y}`) ?? []) if (length2(sub2(points[i]!, p)) < CONTACT / 2) return i;
    const key = `${cx},${cy}`;
    fileUnder(cells, key, points.length);
    return points.push(p) - 1;
  };
  return Object.assign(find, { points });
}

/** Runs of facets whose corners lie on one circle. */
function arcsOf(chain: Chain): Arc[] {
  const { points, faces } = chain.isClosed ? fromBreak(chain) : chain;
  const radii = points.map((_, i) => (i > 0 && i + 1 < points.length ? radiusAt(points, i) : 0));
  const arcs: Arc[] = [];
  for (let start = 1; start + 1 < points.length; ) {
    let end = start;
    while (end + 2 < points.length && isSameArc(radii[start]!, radii[end + 1]!)) end++;
    const run = points.slice(start - 1, end + 2);
    const arc = radii[start] !== 0 && run.length > LEAST_FACETS ? fitArc(run) : undefined;
    if (arc) arcs.push({ ...arc, faces: faces.slice(start - 1, end + 1) });
    start = end + 1;
  }
  return arcs;
}

const isSameArc = (a: number, b: number): boolean => a !== 0 && Math.abs(b / a - 1) < SAME_RADIUS;

/** A closed chain turned so that it starts where one arc ends; a whole circle starts anywhere, and overlaps by a facet. */
function fromBreak({ points, faces }: Chain): Pick<Chain, 'points' | 'faces'> {
  const ring = points.slice(0, -1);
  const n = ring.length;
  const radii = ring.map((_, i) => radiusAt([ring.at(i - 1)!, ring[i]!, ring[(i + 1) % n]!], 1));
  const start = Math.max(
    0,
    radii.findIndex((radius, i) => !isSameArc(radius, radii.at(i - 1)!)),
  );
  const turned = ring.map((_, i) => ring[(start + i) % n]!);
  const facets = faces.map((_, i) => faces[(start + i) % n]!);
  return { points: [...turned, turned[0]!, turned[1]!], faces: [...facets, facets[0]!] };
}

/** Of the circle through a point and its two neighbours, positive to the left; 0 where they turn by none or too much. */
function radiusAt(points: readonly Vec2[], i: number): number {
  const [u, v] = [sub2(points[i]!, points[i - 1]!), sub2(points[i + 1]!, points[i]!)];
  const turn = Math.atan2(cross2(u, v), dot2(u, v));
  const least = 1e-5;
  if (Math.abs(turn) < least || Math.abs(turn) > (FACET_TURN * Math.PI) / 180) return 0;
  return length2(sub2(points[i + 1]!, points[i - 1]!)) / (2 * Math.sin(turn));
}

/** Least squares (Kåsa): exact where the corners lie on a circle; undefined where they don't. */
function fitArc(points: readonly Vec2[]): Omit<Arc, 'faces'> | undefined {
  const n = points.length;
  const mean = (f: (p: Vec2) => number): number => points.reduce((sum, p) => sum + f(p), 0) / n;
  const [mx, my] = [mean((p) => p[0]), mean((p) => p[1])];
  const [uu, vv, uv] = [
    mean((p) => (p[0] - mx) ** 2),
    mean((p) => (p[1] - my) ** 2),
    mean((p) => (p[0] - mx) * (p[1] - my)),
  ];
  const [u, v] = [
    mean((p) => (p[0] - mx) * ((p[0] - mx) ** 2 + (p[1] - my) ** 2)) / 2,
    mean((p) => (p[1] - my) * ((p[0] - mx) ** 2 + (p[1] - my) ** 2)) / 2,
  ];
  const det = uu * vv - uv * uv;
  if (!(det > 0)) return undefined;
  const [a, b] = [(u * vv - v * uv) / det, (v * uu - u * uv) / det];
  const centre: Vec2 = [mx + a, my + b];
  const radius = Math.sqrt(a * a + b * b + uu + vv);
  if (points.some((p) => Math.abs(length2(sub2(p, centre)) - radius) > ROUND_RESIDUAL)) return undefined;
  const longest = Math.max(...points.slice(1).map((p, i) => length2(sub2(p, points[i]!))));
  return { centre, radius, chordError: radius - Math.sqrt(Math.max(0, radius ** 2 - (longest / 2) ** 2)) };
}

/** One face alone bounds no wall: there must be two radii at least. */
function aboutOneAxis(arcs: readonly Arc[]): RoundFaces[] {
  const groups: Arc[][] = [];
  for (const arc of [...arcs].sort((a, b) => b.faces.length - a.faces.length)) {
    const group = groups.find(([first]) => length2(sub2(first!.centre, arc.centre)) < CONTACT);
    if (group) group.push(arc);
    else groups.push([arc]);
  }
  return groups
    .map((group) => ({
      centre: group[0]!.centre,
      radii: distinct(group.map(({ radius }) => radius)),
      chordError: Math.max(...group.map(({ chordError }) => chordError)),
      faces: group.flatMap(({ faces }) => faces),
    }))
    .filter(({ radii }) => radii.length > 1);
}

const distinct = (radii: readonly number[]): number[] =>
  [...radii].sort((a, b) => a - b).filter((r, i, all) => i === 0 || r - all[i - 1]! > CONTACT);
