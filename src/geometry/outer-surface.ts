/** The outside of a body between its ends: what a cover of it has to cover. */
import type { Body, Mesh, Vec3 } from '../model.js';
import type { Box } from './box.js';
import { type Fit, fitShape } from './fit.js';
import { type FlatFace, flatFaces } from './flat-faces.js';
import { frameAlong, toPlane } from './frame.js';
import { prismMesh } from './loft.js';
import { isClosed, joinedTriangles } from './mesh.js';
import { contains, convexHull } from './polygon.js';
import { cross, distance, dot, length, sub, Z } from './vector.js';

/** Where a body may be open, and what joins it there. */
export interface OpenEnd {
  readonly at: Vec3;
  /** Section of what joins it, mm²; a smaller one on a larger face takes only its own area away. */
  readonly joined: number | undefined;
}

export interface OuterSurface {
  /** mm². */
  readonly area: number;
  /** Of the faces at the ends. */
  readonly ends: readonly Fit[];
  /** That it is a part of, and which triangles of it. */
  readonly mesh: Mesh;
  readonly triangles: readonly number[];
}

/** Why there is none. `open`: the mesh is not closed; `end`: no flat face lies at an end; `parts`: it is not one surface. */
export type NoSurface = 'open' | 'end' | 'parts';

/** What joins a face with less than this share of its area joins only a part of it. */
const WHOLE_FACE = 0.9;
/** Corners of the inside lie no further than this outside the box of the outside, mm. */
const WITHIN = 0.01;

/**
 * The faces at the ends are taken off; of what then is left in parts the one round all others is the outside, so that
 * neither the rims of a hollow body count nor what air touches.
 *
 * @param body its triangles share their corners, as they do once they are read
 * @param reach how far a face may lie from its end, mm
 */
export function outerSurface(body: Body, ends: readonly OpenEnd[], reach: number): OuterSurface | NoSurface {
  const mesh = body.kind === 'mesh' ? body : prismMesh(body);
  if (!isClosed(mesh)) return 'open';
  const faces = flatFaces(mesh, (plane) => ends.some(({ at }) => offPlane(plane, at) <= reach));
  const taken = new Set<number>();
  const fits: Fit[] = [];
  let notJoined = 0;
  for (const { at, joined } of ends) {
    const face = nearestFace(faces, at, reach);
    if (!face) return 'end';
    const own = touching(mesh, face, at);
    const area = own.reduce((sum, t) => sum + areaOf(mesh, t), 0);
    const fit = fitShape(outlineOf(mesh, face.normal, own));
    fits.push(fit);
    if (own.every((t) => taken.has(t))) {
      // A second, smaller thing on one face.
      notJoined -= joined ?? 0;
      continue;
    }
    for (const t of own) taken.add(t);
    if (joined !== undefined && joined < WHOLE_FACE * fullArea(fit)) notJoined += area - joined;
  }
  const outside = outermost(mesh, taken);
  return outside ? { area: outside.area + notJoined, ends: fits, mesh, triangles: outside.own } : 'parts';
}

const vertexOf = ({ positions }: Mesh, i: number): Vec3 => [
  positions[3 * i]!,
  positions[3 * i + 1]!,
  positions[3 * i + 2]!,
];
const cornersOf = ({ triangles }: Mesh, t: number): readonly [number, number, number] => [
  triangles[3 * t]!,
  triangles[3 * t + 1]!,
  triangles[3 * t + 2]!,
];

function areaOf(mesh: Mesh, t: number): number {
  const [a, b, c] = cornersOf(mesh, t).map((i) => vertexOf(mesh, i)) as [Vec3, Vec3, Vec3];
  return length(cross(sub(b, a), sub(c, a))) / 2;
}

function nearestFace(faces: readonly FlatFace[], at: Vec3, reach: number): FlatFace | undefined {
  return faces
    .filter((face) => offPlane(face, at) <= reach && holds(face, at))
    .sort((a, b) => offPlane(a, at) - offPlane(b, at) || b.triangles.length - a.triangles.length)[0];
}

const offPlane = ({ normal, offset }: Pick<FlatFace, 'normal' | 'offset'>, at: Vec3): number =>
  Math.abs(dot(normal, at) - offset);

function holds({ normal, points }: FlatFace, at: Vec3): boolean {
  const plane = frameAlong(at, normal, Z);
  return contains(convexHull(points.map((p) => toPlane(plane, p))), [0, 0]);
}

/** Of all that lies in the plane of a face what hangs together with the triangle that is nearest to the place. */
function touching(mesh: Mesh, { normal, triangles }: FlatFace, at: Vec3): number[] {
  const groups = joinedTriangles(mesh, triangles);
  if (groups.length === 1) return [...triangles];
  const plane = frameAlong(at, normal, Z);
  const round = groups.find((group) => contains(outlineOf(mesh, normal, group, plane), [0, 0]));
  const nearness = (group: readonly number[]): number =>
    Math.min(...group.flatMap((t) => cornersOf(mesh, t).map((i) => distance(vertexOf(mesh, i), at))));
  return round ?? [...groups].sort((a, b) => nearness(a) - nearness(b))[0]!;
}

const outlineOf = (
  mesh: Mesh,
  normal: Vec3,
  own: readonly number[],
  plane = frameAlong(vertexOf(mesh, cornersOf(mesh, own[0]!)[0]), normal, Z),
) => convexHull(own.flatMap((t) => cornersOf(mesh, t).map((i) => toPlane(plane, vertexOf(mesh, i)))));

/** Of the whole outline, where the face may be the rim of a hollow end. */
function fullArea({ shape, length: long, breadth }: Fit): number {
  if (shape === 'rectangular' || shape === 'unknown') return long * breadth;
  return (Math.PI / 4) * breadth ** 2 + (long - breadth) * breadth;
}

/** The part that the boxes of all others lie in; undefined: there is no such part. */
function outermost(mesh: Mesh, taken: ReadonlySet<number>) {
  const left = Array.from({ length: mesh.triangles.length / 3 }, (_, t) => t).filter((t) => !taken.has(t));
  const parts = joinedTriangles(mesh, left).map((own) => ({
    own,
    area: own.reduce((sum, t) => sum + areaOf(mesh, t), 0),
    box: boxRound(mesh, own),
  }));
  return parts.find(({ box }) => parts.every((other) => isIn(other.box, box)));
}

function boxRound(mesh: Mesh, own: readonly number[]): Box {
  const [min, max] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  for (const t of own)
    for (const corner of cornersOf(mesh, t))
      for (const i of [0, 1, 2]) {
        const value = mesh.positions[3 * corner + i]!;
        min![i] = Math.min(min![i]!, value);
        max![i] = Math.max(max![i]!, value);
      }
  return { min: min as unknown as Vec3, max: max as unknown as Vec3 };
}

const isIn = (inner: Box, outer: Box): boolean =>
  inner.min.every((v, i) => v >= outer.min[i]! - WITHIN) && inner.max.every((v, i) => v <= outer.max[i]! + WITHIN);
