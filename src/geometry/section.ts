/** Cutting bodies with planes. A plane is a Frame: its x and y axes carry the outline, its z axis is the normal. */
import { onceForRecent } from '../collect.js';
import type { Body, Frame, Mesh, Polygon, Prism, Vec2, Vec3 } from '../model.js';
import { fromPlane, toPlane } from './frame.js';
import { meshLoops } from './mesh-loops.js';
import { mapOutline, type PlaneMap } from './plane-map.js';
import { area, clip, contains, counterClockwise, interiorPoint } from './polygon.js';
import { dot, sub } from './vector.js';

/** The cut of a body: outer outlines and the holes in them, all counter-clockwise, in the plane's coordinates. */
export interface Region {
  readonly outers: readonly Polygon[];
  readonly holes: readonly Polygon[];
  /** The body is not closed where it is cut: so many mm of its outlines are straight lines that bridge gaps. */
  readonly bridged: number;
}

/** Outlines smaller than this are slivers of the cut, no section, mm². */
const LEAST_AREA = 1;

/** What is measured at a crossing asks for the same few cuts again and again. */
export function cutBody(body: Body, plane: Frame): Region {
  const known = cutsOf(body);
  const found = known.find((cut) => isSamePlane(cut.plane, plane));
  if (found) return found.region;
  const region = body.kind === 'prism' ? cutPrism(body, plane) : cutMesh(body, plane);
  known.unshift({ plane, region });
  if (known.length > KEPT_CUTS) known.pop();
  return region;
}

/** Of each body, the latest first: more than a crossing needs, however many a long wall has. */
const KEPT_CUTS = 16;
/** Some storeys: finding goes through a building from place to place. */
const CUT_BODIES = 4096;
const cutsOf = onceForRecent(CUT_BODIES, (_: Body): { readonly plane: Frame; readonly region: Region }[] => []);

const isSamePlane = (a: Frame, b: Frame): boolean =>
  a === b || (isSame(a.origin, b.origin) && isSame(a.z, b.z) && isSame(a.x, b.x) && isSame(a.y, b.y));

const isSame = (a: Vec3, b: Vec3): boolean => a[0] === b[0] && a[1] === b[1] && a[2] === b[2];

export function cutBodies(bodies: readonly Body[], plane: Frame): Region {
  const regions = bodies.map((body) => cutBody(body, plane));
  return {
    outers: regions.flatMap((r) => r.outers),
    holes: regions.flatMap((r) => r.holes),
    bridged: regions.reduce((sum, r) => sum + r.bridged, 0),
  };
}

/** Least and largest coordinate along a direction through `from` (unit vector), mm. */
export function extent(bodies: readonly Body[], from: Vec3, direction: Vec3): readonly [number, number] {
  let [least, most] = [Infinity, -Infinity];
  const [dx, dy, dz] = direction;
  const take = (x: number, y: number, z: number): void => {
    const s = (x - from[0]) * dx + (y - from[1]) * dy + (z - from[2]) * dz;
    if (s < least) least = s;
    if (s > most) most = s;
  };
  for (const body of bodies) forEachCorner(body, take);
  return [least, most];
}

export const forEachVertex = (body: Body, visit: (p: Vec3) => void): void =>
  forEachCorner(body, (x, y, z) => visit([x, y, z]));

/** The same without an array for each: bodies have many, and are gone through again and again. */
export function forEachCorner(body: Body, visit: (x: number, y: number, z: number) => void): void {
  if (body.kind === 'mesh') {
    const { positions } = body;
    for (let i = 0; i < positions.length; i += 3) visit(positions[i]!, positions[i + 1]!, positions[i + 2]!);
    return;
  }
  const { frame, sweep } = body;
  const [[ox, oy, oz], [xx, xy, xz], [yx, yy, yz]] = [frame.origin, frame.x, frame.y];
  // Coordinates by index here and in all that goes through outlines: `[u, v]` asks an iterator, which makes objects.
  for (const { 0: u, 1: v } of body.outline) {
    const x = ox + (xx * u + yx * v);
    const y = oy + (xy * u + yy * v);
    const z = oz + (xz * u + yz * v);
    visit(x, y, z);
    visit(x + sweep[0], y + sweep[1], z + sweep[2]);
  }
}

/**
 * Exact for any plane. In coordinates (u, v) of the outline and t along the sweep the plane is a·u + b·v + c·t = d;
 * the cut is the part of the outline where 0 ≤ t ≤ 1, carried to the plane along the sweep.
 */
function cutPrism(prism: Prism, plane: Frame): Region {
  const { frame, sweep } = prism;
  const a = dot(frame.x, plane.z);
  const b = dot(frame.y, plane.z);
  const c = dot(sweep, plane.z);
  const d = dot(sub(plane.origin, frame.origin), plane.z);
  if (Math.abs(c) < 1e-9 * Math.hypot(...sweep)) return cutAlongSweep(prism, plane, a, b, d);
  const map = mapAlongSweep(prism, plane, [a / c, b / c, d / c]);
  const part = (outline: Polygon): Polygon => {
    let [low, high] = [Infinity, -Infinity];
    for (const { 0: u, 1: v } of outline) {
      const t = (d - a * u - b * v) / c;
      if (t < low) low = t;
      if (t > high) high = t;
    }
    if (high < 0 || low > 1) return [];
    // t ≥ 0 is (a·u + b·v)/c ≤ d/c and t ≤ 1 is −(a·u + b·v)/c ≤ 1 − d/c.
    let kept: Polygon = outline;
    if (low < 0) kept = clip(kept, a / c, b / c, d / c);
    if (high > 1) kept = clip(kept, -a / c, -b / c, 1 - d / c);
    return mapOutline(kept, map);
  };
  return { outers: sizable([part(prism.outline)]), holes: sizable(prism.voids.map(part)), bridged: 0 };
}

/** From the outline of a prism along its sweep to a plane that is at t = d − a·u − b·v. */
function mapAlongSweep({ frame, sweep }: Prism, plane: Frame, [a, b, d]: Vec3): PlaneMap {
  const from = sub(frame.origin, plane.origin);
  const along = (axis: Vec3): readonly [origin: number, x: number, y: number] => {
    const s = dot(sweep, axis);
    return [dot(from, axis) + d * s, dot(frame.x, axis) - a * s, dot(frame.y, axis) - b * s];
  };
  const [[ox, xx, yx], [oy, xy, yy]] = [along(plane.x), along(plane.y)];
  return { origin: [ox, oy], x: [xx, xy], y: [yx, yy] };
}

/** The plane runs along the sweep: it cuts the outline in chords, each of which sweeps a parallelogram. */
function cutAlongSweep(prism: Prism, plane: Frame, a: number, b: number, d: number): Region {
  const strips = (outline: Polygon): Polygon[] => {
    const cuts: { along: number; at: Vec2 }[] = [];
    for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
      const [from, to] = [outline[j]!, outline[i]!];
      const df = a * from[0] + b * from[1] - d;
      const dt = a * to[0] + b * to[1] - d;
      if (df < 0 === dt < 0) continue;
      const k = df / (df - dt);
      const at: Vec2 = [from[0] + (to[0] - from[0]) * k, from[1] + (to[1] - from[1]) * k];
      cuts.push({ along: -b * at[0] + a * at[1], at });
    }
    cuts.sort((p, q) => p.along - q.along);
    const out: Polygon[] = [];
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [p, q] = [fromPlane(prism.frame, cuts[i]!.at), fromPlane(prism.frame, cuts[i + 1]!.at)];
      const s = prism.sweep;
      const corners: Vec3[] = [p, q, [q[0] + s[0], q[1] + s[1], q[2] + s[2]], [p[0] + s[0], p[1] + s[1], p[2] + s[2]]];
      out.push(counterClockwise(corners.map((corner) => toPlane(plane, corner))));
    }
    return out;
  };
  return { outers: sizable(strips(prism.outline)), holes: sizable(prism.voids.flatMap(strips)), bridged: 0 };
}

/** @param joinOpenAt see {@link meshLoops} */
export function cutMesh(mesh: Mesh, plane: Frame, joinOpenAt?: number): Region {
  const { loops, bridged } = meshLoops(mesh, plane, joinOpenAt);
  return nest(sizable(loops.map(counterClockwise)), bridged);
}

/** Outlines inside an odd number of others are holes. */
function nest(loops: readonly Polygon[], bridged: number): Region {
  const outers: Polygon[] = [];
  const holes: Polygon[] = [];
  for (const loop of loops) {
    const inside = interiorPoint(loop);
    const depth = loops.filter((other) => other !== loop && area(other) > area(loop) && contains(other, inside)).length;
    (depth % 2 === 0 ? outers : holes).push(loop);
  }
  return { outers, holes, bridged };
}

const sizable = (polygons: readonly Polygon[]): Polygon[] =>
  polygons.filter((p) => p.length > 2 && area(p) >= LEAST_AREA);
