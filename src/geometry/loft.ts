/** Solids between rings of points, as meshes: extrusions, tapers, bends, tubes. */
import earcut from 'earcut';
import { onceForEach } from '../collect.js';
import type { Mesh, Polygon, Prism, Vec3 } from '../model.js';
import { fromPlane } from './frame.js';
import { add } from './vector.js';

/** Triangles of a flat outline with holes, by index into outline and voids laid end to end. */
export function triangulate(outline: Polygon, voids: readonly Polygon[]): number[] {
  const points = [outline, ...voids].flat();
  let start = outline.length;
  const starts = voids.map((v) => {
    start += v.length;
    return start - v.length;
  });
  return earcut(points.flat(), starts);
}

/** The outline and the voids of one profile at one place of the sweep; equally many points at every place. */
export interface Ring {
  readonly outline: readonly Vec3[];
  readonly voids: readonly (readonly Vec3[])[];
}

/**
 * @param profile the flat shape of the rings, to close both ends with
 * @param isClosed the last ring joins the first, as in a full turn: there are no ends
 */
export function loft(profile: Ring2, rings: readonly Ring[], isClosed = false): Mesh {
  const loops = [profile.outline, ...profile.voids];
  const size = loops.reduce((sum, loop) => sum + loop.length, 0);
  const positions = rings.flatMap((ring) => [...ring.outline, ...ring.voids.flat()]).flat();
  const triangles: number[] = [];
  const strips = isClosed ? rings.length : rings.length - 1;
  for (let r = 0; r < strips; r++) {
    const [here, there] = [r * size, ((r + 1) % rings.length) * size];
    let start = 0;
    for (const loop of loops) {
      const { length } = loop;
      for (let i = 0; i < length; i++) {
        const [p, q] = [start + i, start + ((i + 1) % length)];
        // Voids run the same way round as the outline, but the solid lies on their other side.
        const [a, b] = loop === profile.outline ? [p, q] : [q, p];
        triangles.push(here + a, here + b, there + b, here + a, there + b, there + a);
      }
      start += length;
    }
  }
  if (!isClosed) {
    const cap = triangulate(profile.outline, profile.voids);
    const last = (rings.length - 1) * size;
    for (let t = 0; t < cap.length; t += 3) {
      triangles.push(cap[t]!, cap[t + 2]!, cap[t + 1]!);
      triangles.push(last + cap[t]!, last + cap[t + 1]!, last + cap[t + 2]!);
    }
  }
  return { kind: 'mesh', positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

export interface Ring2 {
  readonly outline: Polygon;
  readonly voids: readonly Polygon[];
}

/** Made once for each prism. */
export const prismMesh = onceForEach(meshed);

function meshed(prism: Prism): Mesh {
  const ring = (by: Vec3): Ring => {
    const lift = (p: Polygon) => p.map((q) => add(fromPlane(prism.frame, q), by));
    return { outline: lift(prism.outline), voids: prism.voids.map(lift) };
  };
  return loft(prism, [ring([0, 0, 0]), ring(prism.sweep)]);
}
