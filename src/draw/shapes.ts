/** The parts of a snapshot: elements with their edges, cut ends of ducts, the inside of openings, the rim. */
import earcut from 'earcut';
import { fromPlane, raised } from '../geometry/frame.js';
import { contains } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { cross, dot, length, lerp, scale, sub, unit } from '../geometry/vector.js';
import type { Frame, Polygon, Vec3 } from '../model.js';
import type { SceneElement } from '../scene/scene.js';
import { sharpEdges } from './edges.js';
import { cutoutOf, type Hole } from './holes.js';
import { EDGE, INK, over, PAGE, type Rgb, SECONDARY } from './palette.js';
import { asBody, isOneOf, type Place } from './place.js';
import { type Corner, type Cutout, drawLine, fillTriangle } from './raster.js';
import type { Standpoint } from './standpoint.js';
import { cutLine, cutOutline, isKept, onPicture, type View } from './view.js';

const BARRIER = over(INK, 0.12, PAGE);
const REVEAL = over(INK, 0.3, PAGE);
const OWN_DUCT = over(SECONDARY, 0.42, PAGE);
const OTHER_DUCT = over(SECONDARY, 0.24, PAGE);
const SERVICE = over(SECONDARY, 0.15, PAGE);
/** Dampers, and what is laid bare where a duct is cut off, are this much darker. */
const DARKER = 0.3;

export function drawElement(view: View, place: Place, holes: readonly Hole[], element: SceneElement): void {
  if (element.kind === 'opening') return;
  const cutout = element.kind === 'barrier' ? cutoutOf(holes, place.thickness) : undefined;
  const colour = colourOf(element, place);
  const { positions, triangles } = element;
  const points: Vec3[] = [];
  for (let i = 0; i < positions.length; i += 3)
    points.push(view.toView([positions[i]!, positions[i + 1]!, positions[i + 2]!]));
  const corners = points.map((p) => (isKept(view, p) ? onPicture(view, p) : undefined));
  for (let f = 0; f < triangles.length; f += 3) {
    const [a, b, c] = [triangles[f]!, triangles[f + 1]!, triangles[f + 2]!];
    const lit = shaded(colour, points[a]!, points[b]!, points[c]!);
    if (corners[a] && corners[b] && corners[c])
      fillTriangle(view.canvas, corners[a], corners[b], corners[c], lit, cutout);
    else fillOutline(view, [points[a]!, points[b]!, points[c]!], lit, cutout);
  }
  for (const [a, b] of sharpEdges(element)) drawSegment(view, view.toView(a), view.toView(b), EDGE, 1);
}

function colourOf(element: SceneElement, place: Place): Rgb {
  if (element.kind === 'barrier') return BARRIER;
  if (element.kind === 'service') return SERVICE;
  const colour = isOneOf(element, place.ducts) ? OWN_DUCT : OTHER_DUCT;
  return element.kind === 'damper' ? over(INK, DARKER, colour) : colour;
}

/** From the left, above and behind the eye. */
const LIGHT = unit([-0.35, 0.6, -1]);
/** How much of its colour a face keeps that the light only grazes. Barriers are large: their faces stay light. */
const GRAZED = 0.7;
const GRAZED_BARRIER = 0.9;

function shaded(colour: Rgb, a: Vec3, b: Vec3, c: Vec3): Rgb {
  const lit = Math.abs(dot(unit(cross(sub(b, a), sub(c, a))), LIGHT));
  const grazed = colour === BARRIER ? GRAZED_BARRIER : GRAZED;
  const k = grazed + (1 - grazed) * lit;
  return [colour[0] * k, colour[1] * k, colour[2] * k];
}

function fillOutline(view: View, outline: readonly Vec3[], colour: Rgb, cutout?: Cutout): void {
  const corners = cutOutline(view, outline).map((p): Corner => onPicture(view, p));
  for (let i = 2; i < corners.length; i++)
    fillTriangle(view.canvas, corners[0]!, corners[i - 1]!, corners[i]!, colour, cutout);
}

function drawSegment(view: View, a: Vec3, b: Vec3, colour: Rgb, thickness: number): void {
  const kept = cutLine(view, a, b);
  if (kept) drawLine(view.canvas, onPicture(view, kept[0]), onPicture(view, kept[1]), colour, thickness);
}

/** A hair on the kept side of the plane, so that the end itself is not cut away, mm. */
const END_INSET = 0.1;

/** Where elements are cut off: closed with a dark face, since what a solid hides is not there to be seen. */
export function drawCutEnds(view: View, place: Place, { planes }: Standpoint, elements: readonly SceneElement[]): void {
  for (const { at, direction } of planes) {
    const origin = sub(at, scale(direction, END_INSET));
    const plane: Frame = { origin, x: place.frame.x, y: place.frame.y, z: place.frame.z };
    for (const element of elements) {
      if (element.kind === 'opening' || isOneOf(element, place.barriers)) continue;
      const { outers, holes } = cutBodies([asBody(element)], plane);
      for (const outer of outers) {
        const inner = holes.filter((hole) => contains(outer, hole[0]!));
        drawEnd(view, plane, [outer, ...inner], over(INK, DARKER, colourOf(element, place)));
      }
    }
  }
}

function drawEnd(view: View, plane: Frame, rings: readonly Polygon[], colour: Rgb): void {
  const points = rings.flat().map((q) => view.toView(fromPlane(plane, q)));
  const starts = rings.map((_, i) => rings.slice(0, i).reduce((sum, ring) => sum + ring.length, 0));
  const triangles = earcut(rings.flat(2), starts.slice(1));
  for (let f = 0; f < triangles.length; f += 3)
    fillOutline(view, [points[triangles[f]!]!, points[triangles[f + 1]!]!, points[triangles[f + 2]!]!], colour);
  for (const [r, ring] of rings.entries())
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++)
      drawSegment(view, points[starts[r]! + j]!, points[starts[r]! + i]!, EDGE, 1.5);
}

/** Outlines of more corners are drawn from arcs: no line between their faces. */
const ROUND = 12;

/** The faces of the barrier that an opening lays bare, and their edges. */
export function drawReveal(view: View, hole: Hole, thickness: number): void {
  const half = thickness / 2;
  const near = movedTo(view, hole, half);
  const far = movedTo(view, hole, -half);
  const isRound = near.length >= ROUND;
  for (let i = 0, j = near.length - 1; i < near.length; j = i++) {
    const corners = [far[j]!, far[i]!, near[i]!, near[j]!] as const;
    fillOutline(view, corners, shaded(REVEAL, corners[0], corners[1], corners[2]));
    drawSegment(view, far[j]!, far[i]!, EDGE, 1);
    drawSegment(view, near[j]!, near[i]!, EDGE, 1);
    if (!isRound) drawSegment(view, far[i]!, near[i]!, EDGE, 1);
  }
}

/** The outline of a hole at a height over the barrier's middle, in the eye's space. */
function movedTo({ frame }: View, { outline, slope }: Hole, z: number): Vec3[] {
  const plane = raised(frame, z);
  return outline.map(([x, y]) => fromPlane(plane, [x + slope[0] * z, y + slope[1] * z]));
}

/** On the face that is seen, in the eye's space. */
export const rimPoints = (view: View, { rim, rimSlope, thickness }: Place, facing: 1 | -1): Vec3[][] =>
  rim.map((outline) => movedTo(view, { outline, slope: rimSlope }, (facing * thickness) / 2));

const RIM_THICKNESS = 4;
/** Where the duct hides the rim it goes on in dashes, as hidden lines are drawn; mm along the rim. */
const DASH = 35;
const DASH_THICKNESS = 1.5;

export function drawRim(view: View, place: Place, facing: 1 | -1, colour: Rgb): void {
  for (const outline of rimPoints(view, place, facing)) {
    let walked = 0;
    for (const [i, to] of outline.entries()) {
      const from = outline.at(i - 1)!;
      const reach = length(sub(to, from));
      for (let t = 0; t < reach; ) {
        const next = Math.min(reach, t + DASH - ((walked + t) % DASH));
        const isDash = Math.floor((walked + t + 1e-6) / DASH) % 2 === 0;
        if (isDash) drawOnTop(view, lerp(from, to, t / reach), lerp(from, to, next / reach), colour);
        t = Math.max(next, t + 1e-3);
      }
      walked += reach;
      drawSegment(view, from, to, colour, RIM_THICKNESS);
    }
  }
}

function drawOnTop(view: View, a: Vec3, b: Vec3, colour: Rgb): void {
  const kept = cutLine(view, a, b);
  const onTop = (p: Vec3): Corner => ({ ...onPicture(view, p), inverse: Number.MAX_VALUE });
  if (kept) drawLine(view.canvas, onTop(kept[0]), onTop(kept[1]), colour, DASH_THICKNESS);
}
