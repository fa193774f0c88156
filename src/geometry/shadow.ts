/** Bodies seen from above: what of the plan they cover. */
import { onceForEach } from '../collect.js';
import type { Body, Mesh, Polygon, Prism, Vec2 } from '../model.js';
import { type Outlines, united } from './areas.js';
import { fromPlane, WORLD } from './frame.js';
import { prismMesh } from './loft.js';
import { convexHull, counterClockwise, isConvex } from './polygon.js';
import { cutBody } from './section.js';

/** Worked out once: an opening is looked at from both sides of its wall, and a floor from below and above. */
export const shadowOf = onceForEach((bodies: readonly Body[]): Outlines => united(...bodies.map(shadowOfBody)));

function shadowOfBody(body: Body): Outlines {
  if (body.kind === 'mesh') return shadowOfMesh(body);
  if (!isUpright(body)) return hidesItself(body) ? [convexHull(plan(body))] : shadowOfMesh(prismMesh(body));
  // Cut across its sweep it is the same anywhere, and exact.
  const { outers, holes } = cutBody(body, { ...WORLD, origin: [0, 0, body.frame.origin[2] + body.sweep[2] / 2] });
  return [...outers, ...holes.map((hole) => [...hole].reverse())];
}

/** Stands straight on a level outline. */
const isUpright = ({ frame, sweep: [x, y, z] }: Prism): boolean =>
  Math.hypot(x, y) < 1e-9 * Math.abs(z) && Math.abs(frame.x[2]) < 1e-9 && Math.abs(frame.y[2]) < 1e-9;

/** Nothing is seen through it from above, so what it covers is what lies between its corners. */
const hidesItself = ({ outline, voids, sweep }: Prism): boolean =>
  isConvex(outline) && (voids.length === 0 || Math.abs(sweep[2]) < 1e-9 * Math.hypot(...sweep));

const plan = ({ frame, outline, sweep }: Prism): Vec2[] =>
  outline.flatMap((q): Vec2[] => {
    const [x, y] = fromPlane(frame, q);
    return [
      [x, y],
      [x + sweep[0], y + sweep[1]],
    ];
  });

/** Of all triangles, whichever way they are wound; upright ones cover nothing. */
function shadowOfMesh({ positions, triangles }: Mesh): Outlines {
  const corner = (i: number) => [positions[3 * i]!, positions[3 * i + 1]!] as const;
  const found: Polygon[] = [];
  for (let f = 0; f < triangles.length; f += 3)
    found.push(counterClockwise([corner(triangles[f]!), corner(triangles[f + 1]!), corner(triangles[f + 2]!)]));
  return unitedByHalves(found);
}

/** Thousands of triangles over each other have millions of crossings; those of halves that are united are few. */
function unitedByHalves(found: Outlines): Outlines {
  if (found.length <= TOGETHER) return united(found);
  const half = Math.ceil(found.length / 2);
  return united(unitedByHalves(found.slice(0, half)), unitedByHalves(found.slice(half)));
}
const TOGETHER = 16;
