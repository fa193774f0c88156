/** What stands between the eye and the penetration, and so is cut away. */
import { dot, sub } from '../../src/geometry/vector.js';
import type { Vec3 } from '../../src/model.js';
import type { Side } from '../state/state.js';
import { boxOfElement, type Elements, elementsNear } from './elements.js';
import type { Place } from './place.js';
import { middleOfRim, onFace, outwards } from './place.js';

/** How far before the face something hides it, and how far beside the rim it still does, mm. */
const DEPTH = 3000;
const BESIDE = 300;
/** What only touches the face hides nothing. */
const THIN = 5;

/**
 * Elements with a triangle before duct and opening, nearest to the face first; what passes there itself is left out.
 * @param isOwn ducts, opening and leaves of the penetration
 */
export function standingBefore(elements: Elements, place: Place, side: Side, isOwn: (id: number) => boolean): number[] {
  const { frame, rim } = place;
  const out = outwards(place, side);
  const face = onFace(place, side, middleOfRim(place));
  const inPlane = (p: Vec3): readonly [number, number, number] => {
    const d = sub(p, frame.origin);
    return [dot(d, frame.x), dot(d, frame.y), dot(sub(p, face), out)];
  };
  const reach = DEPTH + Math.hypot(rim.max[0] - rim.min[0], rim.max[1] - rim.min[1]);
  const found: { readonly id: number; readonly depth: number }[] = [];
  for (const id of elementsNear(elements, face, reach)) {
    if (isOwn(id) || elements.nodes[id]!.extras.kind === 'opening' || isBehind(elements, id, face, out)) continue;
    const depth = depthBefore(elements.nodes[id]!, inPlane, place);
    if (depth !== undefined) found.push({ id, depth });
  }
  return found.sort((a, b) => a.depth - b.depth || a.id - b.id).map(({ id }) => id);
}

function isBehind(elements: Elements, id: number, face: Vec3, out: Vec3): boolean {
  const { min, max } = boxOfElement(elements, id);
  const furthest: Vec3 = [out[0] > 0 ? max[0] : min[0], out[1] > 0 ? max[1] : min[1], out[2] > 0 ? max[2] : min[2]];
  return dot(sub(furthest, face), out) <= THIN;
}

/** Of the triangle nearest to the face whose bounds in the plane reach over the rim. */
function depthBefore(
  { positions, triangles }: Elements['nodes'][number],
  inPlane: (p: Vec3) => readonly [number, number, number],
  { rim }: Place,
): number | undefined {
  let best: number | undefined;
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => {
      const i = 3 * triangles[t + k]!;
      return inPlane([positions[i]!, positions[i + 1]!, positions[i + 2]!]);
    });
    const [xs, ys, zs] = [corners.map((c) => c[0]), corners.map((c) => c[1]), corners.map((c) => c[2])];
    const depth = Math.max(...zs);
    const nearest = Math.min(...zs);
    if (depth <= THIN || nearest > DEPTH) continue;
    const isBeside =
      Math.min(...xs) > rim.max[0] + BESIDE ||
      Math.max(...xs) < rim.min[0] - BESIDE ||
      Math.min(...ys) > rim.max[1] + BESIDE ||
      Math.max(...ys) < rim.min[1] - BESIDE;
    if (!isBeside && (best === undefined || nearest < best)) best = nearest;
  }
  return best;
}
