/**
 * Does a rated wall reach the structure above? Its top is compared with the soffit along its whole length, and what
 * passes in between is listed.
 */
import { refOf } from '../element-refs.js';
import { fromPlane, toPlane } from '../geometry/frame.js';
import { bounds, centroid } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { dot, sub } from '../geometry/vector.js';
import type { Barrier, Body, ElementRef, Polygon, Vec3 } from '../model.js';
import { CONTACT } from '../tolerances.js';
import type { GrossBody } from './gross-body.js';
import { headSteps, type Plate } from './plates.js';

export interface WallHead {
  /** The largest; undefined where no structure stands above in the models. */
  readonly gap: number | undefined;
  /** Of the wall, where there is a gap. */
  readonly length: number;
  /** Half-way up the gap where it is largest; where there is none, on the top of the wall, a step from its middle at most. */
  readonly at: Vec3 | undefined;
  /** Services between the top of the wall and the structure. */
  readonly passing: readonly ElementRef[];
  /** Height of the gap over a point in the wall; undefined where no structure stands above it. */
  readonly gapOver: (p: Vec3) => number | undefined;
}

interface Service extends ElementRef {
  readonly bodies: readonly Body[];
}

/** One upright line at which top and soffit are compared. */
interface Station {
  readonly plate: Plate;
  readonly x: number;
  readonly step: number;
  readonly top: number;
  /** Undefined: nothing stands above. */
  readonly soffit: number | undefined;
}

/** @param above every barrier whose box stands over the wall's; @param services likewise */
export function wallHead(
  gross: GrossBody,
  above: readonly Barrier[],
  services: readonly Service[],
): WallHead | undefined {
  const stations = gross.sheets().flatMap(({ plate, width }) => stationsOn(gross, plate, width, above));
  const known = stations.filter((s) => s.soffit !== undefined);
  if (stations.length === 0) return undefined;
  if (known.length === 0) return { gap: undefined, length: 0, at: undefined, passing: [], gapOver: () => undefined };
  const gap = Math.max(...known.map(gapAt));
  // Of many places alike the middle one is shown.
  const widest = known.filter((s) => gapAt(s) > gap - CONTACT);
  const worst = widest[Math.floor(widest.length / 2)]!;
  const open = known.filter((s) => gapAt(s) > CONTACT);
  return {
    gap,
    length: open.reduce((sum, s) => sum + s.step, 0),
    at: fromPlane(worst.plate.frame, [worst.x, worst.top + gap / 2]),
    passing: services.filter((service) => passes(service, open)).map(refOf),
    gapOver: (p) => gapOver(p, known),
  };
}

const gapAt = ({ top, soffit }: Station): number => Math.max(0, (soffit ?? top) - top);

/** Of the runs of a wall round a corner the one that the point lies in; over a curve the nearest step. */
function gapOver(p: Vec3, known: readonly Station[]): number | undefined {
  const beside = known
    .map((station) => {
      const { frame, thickness } = station.plate;
      const isWithin = Math.abs(dot(sub(p, frame.origin), frame.z)) <= thickness / 2 + CONTACT;
      return { station, off: isWithin ? Math.abs(toPlane(frame, p)[0] - station.x) : Infinity };
    })
    .filter(({ station, off }) => off <= station.step);
  const [nearest] = beside.sort((a, b) => a.off - b.off);
  return nearest && gapAt(nearest.station);
}

function stationsOn(gross: GrossBody, plate: Plate, width: number | undefined, above: readonly Barrier[]): Station[] {
  const own = gross.outline(plate, 0);
  const others = above
    .filter((other) => other !== gross.barrier)
    .map(({ kind, bodies }) => ({ kind, outlines: cutBodies(bodies, plate.frame).outers }))
    .filter(({ outlines }) => outlines.length > 0)
    .map(({ kind, outlines }) => ({ kind, outlines, bounds: bounds(outlines) }));
  const places = width === undefined ? placesAlong([own, ...others.map((o) => o.outlines)]) : [{ x: 0, step: width }];
  return places.flatMap(({ x, step }): Station[] => {
    let top = Number.NEGATIVE_INFINITY;
    for (const p of own) for (const [, high] of spansAt(p, x)) top = Math.max(top, high);
    if (!Number.isFinite(top)) return [];
    let isClosed = false;
    let soffit = Infinity;
    for (const { kind, outlines, bounds } of others) {
      if (x < bounds.min[0] || x > bounds.max[0]) continue;
      for (const p of outlines)
        for (const [low, high] of spansAt(p, x)) {
          if (high <= top + CONTACT) continue;
          if (low <= top + CONTACT) isClosed = true;
          if (kind !== 'wall') soffit = Math.min(soffit, low);
        }
    }
    return [{ plate, x, step, top, soffit: isClosed ? top : Number.isFinite(soffit) ? soffit : undefined }];
  });
}

/** The middles of steps between all corners of the outlines: between corners tops and soffits run straight. */
function placesAlong([own, ...others]: readonly (readonly Polygon[])[]): { x: number; step: number }[] {
  if (!own || own.length === 0) return [];
  const { min, max } = bounds(own);
  const corners = [own, ...others].flat().flatMap((p) => p.map(([x]) => x));
  const xs = [...new Set([min[0], max[0], ...corners.filter((x) => x > min[0] && x < max[0])])].sort((a, b) => a - b);
  return xs.slice(1).flatMap((to, i) => {
    const from = xs[i]!;
    const n = headSteps(to - from);
    return Array.from({ length: n }, (_, k) => ({ x: from + ((to - from) * (k + 0.5)) / n, step: (to - from) / n }));
  });
}

/** Where an upright line is within the outline: from, to. */
function spansAt(p: Polygon, x: number): (readonly [number, number])[] {
  const ys: number[] = [];
  for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
    const [xi, yi] = p[i]!;
    const [xj, yj] = p[j]!;
    if (xi > x !== xj > x) ys.push(yi + ((yj - yi) * (x - xi)) / (xj - xi));
  }
  if (ys.length > 2) ys.sort((a, b) => a - b);
  else if (ys.length === 2) return [ys[0]! < ys[1]! ? [ys[0]!, ys[1]!] : [ys[1]!, ys[0]!]];
  return Array.from({ length: Math.floor(ys.length / 2) }, (_, i) => [ys[2 * i]!, ys[2 * i + 1]!] as const);
}

function passes({ bodies }: Service, open: readonly Station[]): boolean {
  const outlinesOn = new Map<Plate, readonly (readonly [number, number])[]>();
  return open.some(({ plate, x, step, top, soffit }) => {
    let centres = outlinesOn.get(plate);
    if (!centres) {
      centres = cutBodies(bodies, plate.frame).outers.map(centroid);
      outlinesOn.set(plate, centres);
    }
    return centres.some(([cx, cy]) => Math.abs(cx - x) <= step && cy > top && cy < soffit!);
  });
}
