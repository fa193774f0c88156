/** The edges of a shape that a draughtsman would draw: where its surface bends sharply or ends. */
import { onceForEach } from '../collect.js';
import { cross, dot, sub, unit } from '../geometry/vector.js';
import type { Vec3 } from '../model.js';
import type { Triangles } from '../scene/triangulate.js';

/** Surfaces that bend by less are one rounded surface: cosine of 25 degrees. */
const ROUNDED = Math.cos((25 * Math.PI) / 180);

export const sharpEdges = onceForEach(({ positions, triangles }: Triangles): readonly (readonly [Vec3, Vec3])[] => {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  const count = positions.length / 3;
  const open = new Map<number, { readonly ends: readonly [number, number]; readonly normal: Vec3 }>();
  const found: (readonly [Vec3, Vec3])[] = [];
  for (let f = 0; f < triangles.length; f += 3) {
    const corners = [triangles[f]!, triangles[f + 1]!, triangles[f + 2]!] as const;
    const [a, b, c] = [at(corners[0]), at(corners[1]), at(corners[2])];
    const normal = unit(cross(sub(b, a), sub(c, a)));
    for (let k = 0; k < 3; k++) {
      const [p, q] = [corners[k]!, corners[(k + 1) % 3]!];
      const key = Math.min(p, q) * count + Math.max(p, q);
      const other = open.get(key);
      if (!other) open.set(key, { ends: [p, q], normal });
      else {
        open.delete(key);
        // Some files wind neighbouring triangles differently: a line through both planes' angle, not a direction.
        if (Math.abs(dot(other.normal, normal)) < ROUNDED) found.push([at(p), at(q)]);
      }
    }
  }
  for (const { ends } of open.values()) found.push([at(ends[0]), at(ends[1])]);
  return found;
});
