/** Is the body of a barrier one that can be measured? Faults are said; only what nothing can be made of is left out. */
import { area } from '../geometry/polygon.js';
import { facesOf } from '../geometry/round-faces.js';
import { cross, distance, dot, length, lineAngle, perpendicularPart, sub, unit } from '../geometry/vector.js';
import type { Body, Mesh, Vec3 } from '../model.js';
import { CONTACT, PARALLEL } from '../tolerances.js';

export interface BodyFault {
  readonly code: 'no-thickness' | 'open-body';
  /** Goes on after the name of the element. */
  readonly message: string;
  readonly isUnusable: boolean;
}

export function faultOfBarrier(bodies: readonly Body[]): BodyFault | undefined {
  if (!hasTwoFaces(bodies))
    return {
      code: 'no-thickness',
      message: 'was not read: its body has no two faces opposite each other (a sheet, or an open shell).',
      isUnusable: true,
    };
  const open = bodies.filter((body) => body.kind === 'mesh' && isOpen(body)).length;
  if (open === 0) return undefined;
  return {
    code: 'open-body',
    message: 'is not closed: faces are missing in its body, so that what was measured there may be wrong.',
    isUnusable: false,
  };
}

function hasTwoFaces(bodies: readonly Body[]): boolean {
  if (bodies.some(isThick)) return true;
  const { flat, round } = facesOf(bodies);
  if (round.length > 0) return true;
  return flat.some((face, i) =>
    flat.slice(i + 1).some((other) => {
      if (lineAngle(face.normal, other.normal) > PARALLEL) return false;
      const sign = dot(face.normal, other.normal) > 0 ? 1 : -1;
      return Math.abs(face.offset - sign * other.offset) > CONTACT;
    }),
  );
}

/** The ends of what is swept so far face each other, whatever stands beside them. */
const isThick = (body: Body): boolean =>
  body.kind === 'prism' &&
  area(body.outline) > CONTACT &&
  Math.abs(dot(body.sweep, unit(cross(body.frame.x, body.frame.y)))) > 2 * CONTACT;

/** A body with more such edges is torn all over; comparing each with each would take too long. */
const MOST_ODD_EDGES = 2000;

type Edge = readonly [Vec3, Vec3];

/**
 * Edges that an odd number of triangles share: none in a closed body, however its triangles are wound. Where a corner of
 * one triangle lies on the edge of another, one long edge meets several short ones: nothing is missing there.
 */
function isOpen(mesh: Mesh): boolean {
  const edges = oddEdges(mesh);
  if (edges.length > MOST_ODD_EDGES) return true;
  return edges.some((edge) => {
    const covered = edges.reduce((sum, other) => (other === edge ? sum : sum + sharedLength(edge, other)), 0);
    return covered < distance(edge[0], edge[1]) - CONTACT;
  });
}

function oddEdges({ positions, triangles }: Mesh): Edge[] {
  const odd = new Map<string, readonly [number, number]>();
  for (let f = 0; f < triangles.length; f += 3)
    for (const [i, j] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ] as const) {
      const [a, b] = [triangles[f + i]!, triangles[f + j]!];
      const key = a < b ? `${a}-${b}` : `${b}-${a}`;
      if (!odd.delete(key)) odd.set(key, [a, b]);
    }
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  return [...odd.values()].map(([a, b]): Edge => [at(a), at(b)]);
}

/** How much of one edge another lies along, mm. */
function sharedLength([a, b]: Edge, [c, d]: Edge): number {
  const along = unit(sub(b, a));
  const off = (p: Vec3) => length(perpendicularPart(sub(p, a), along));
  if (off(c) > CONTACT / 2 || off(d) > CONTACT / 2) return 0;
  const [from, to] = [dot(sub(c, a), along), dot(sub(d, a), along)].sort((x, y) => x - y) as [number, number];
  return Math.max(0, Math.min(to, distance(a, b)) - Math.max(from, 0));
}
