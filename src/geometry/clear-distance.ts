/** The clear distance between two bodies, whatever they are, with the two places where they come nearest. */
import type { Body, Vec3 } from '../model.js';
import { boxesMeet } from './box.js';
import { isClosed, lineHits } from './mesh.js';
import { type Nearest, nearestOfTriangles } from './triangle-distance.js';
import { eachLeafPair, type TriangleTree, treeOf, triangleAt } from './triangle-tree.js';
import { unit } from './vector.js';

export interface ClearDistance extends Nearest {
  /** One of the two lies within the other, and their surfaces do not meet. */
  readonly isInside: boolean;
}

/**
 * Between the surfaces, mm; 0 where they meet, or where one body is inside the other.
 * Exact for flat faces; true arcs of profiles are further by up to ARC_SAGITTA, those of bends by SWEPT_SAGITTA.
 * @param within what is further apart than this is not looked for: undefined then
 */
export function clearDistance(a: Body, b: Body, within = Infinity): ClearDistance | undefined {
  const [first, second] = [treeOf(a), treeOf(b)];
  let best: Nearest | undefined;
  const limit = () => best?.distance ?? within;
  eachLeafPair(first.root, second.root, limit, (p, q) => {
    for (const i of p.triangles)
      for (const j of q.triangles) {
        const one = nearestOfTriangles(triangleAt(first.mesh, i), triangleAt(second.mesh, j));
        if (one.distance < limit()) best = one;
      }
  });
  if (best?.distance !== 0) {
    const inner = insideOf(first, second) ?? insideOf(second, first);
    if (inner) return { distance: 0, points: [inner, inner], isInside: true };
  }
  return best && { ...best, isInside: false };
}

/** Along no axis and no diagonal, so that a line does not run along the faces and edges that models have. */
const ODD: Vec3 = unit([0.5772, 0.3183, 0.7519]);

/** Of a body that is not closed nothing is inside. */
export const isWithin = (body: Body, p: Vec3): boolean => isInside(treeOf(body), p);

function isInside({ mesh, root }: TriangleTree, p: Vec3): boolean {
  if (!boxesMeet({ min: p, max: p }, root.box)) return false;
  return isClosed(mesh) && lineHits(mesh, p, ODD).filter((s) => s > 0).length % 2 === 1;
}

/** A corner of the one that lies in the other; where surfaces don't meet one corner tells of all. */
function insideOf({ mesh }: TriangleTree, outer: TriangleTree): Vec3 | undefined {
  const corner = triangleAt(mesh, 0)[0];
  return isInside(outer, corner) ? corner : undefined;
}
