/** The lines that a draughtsman would draw of a mesh, as one flat array: fast enough for a whole building. */

/** Surfaces that bend by less are one rounded surface: cosine of 25 degrees, as in the papers' pictures. */
const ROUNDED = Math.cos((25 * Math.PI) / 180);

/**
 * @param positions x, y, z of each vertex
 * @returns two vertices for each line, by their numbers
 */
export function sharpLines(positions: Float32Array, triangles: Uint32Array | Uint16Array): number[] {
  const count = positions.length / 3;
  const faces = triangles.length / 3;
  const normals = new Float32Array(3 * faces);
  for (let f = 0; f < faces; f++) setNormal(normals, f, positions, triangles);
  const open = new Map<number, number>();
  const lines: number[] = [];
  for (let f = 0; f < faces; f++)
    for (let k = 0; k < 3; k++) {
      const [p, q] = [triangles[3 * f + k]!, triangles[3 * f + ((k + 1) % 3)]!];
      const key = p < q ? p * count + q : q * count + p;
      const other = open.get(key);
      if (other === undefined) open.set(key, f);
      else {
        open.delete(key);
        if (bends(normals, f, other)) lines.push(p, q);
      }
    }
  for (const key of open.keys()) lines.push(Math.floor(key / count), key % count);
  return lines;
}

/** Some files wind neighbouring triangles differently: the angle between their planes counts, not a direction. */
const bends = (n: Float32Array, a: number, b: number): boolean =>
  Math.abs(n[3 * a]! * n[3 * b]! + n[3 * a + 1]! * n[3 * b + 1]! + n[3 * a + 2]! * n[3 * b + 2]!) < ROUNDED;

function setNormal(normals: Float32Array, f: number, p: Float32Array, t: Uint32Array | Uint16Array): void {
  const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const long = Math.hypot(x, y, z) || 1;
  normals.set([x / long, y / long, z / long], 3 * f);
}
