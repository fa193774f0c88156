/** Thin solids as few triangles. */
import { type Outlines, patchesOf } from '../../geometry/areas.js';
import { triangulate } from '../../geometry/loft.js';
import { volumeOf } from '../../geometry/mesh.js';
import { counterClockwise } from '../../geometry/polygon.js';
import type { Polygon, Vec3 } from '../../model.js';
import type { Triangles } from '../triangulate.js';

/** Points and triangles as they come together. */
export class Solid {
  private readonly positions: number[] = [];
  private readonly triangles: number[] = [];

  /** @returns the number of the first */
  add(points: readonly Vec3[]): number {
    const first = this.positions.length / 3;
    for (const point of points) this.positions.push(...point);
    return first;
  }

  triangle(a: number, b: number, c: number): void {
    this.triangles.push(a, b, c);
  }

  quad(a: number, b: number, c: number, d: number): void {
    this.triangles.push(a, b, c, a, c, d);
  }

  /** Looking outwards, whichever way its frame is turned. Null: nothing is there. */
  shape(): Triangles | null {
    if (this.triangles.length === 0) return null;
    const shape = { positions: Float64Array.from(this.positions), triangles: Uint32Array.from(this.triangles) };
    if (volumeOf(shape) < 0)
      for (let t = 0; t < shape.triangles.length; t += 3) shape.triangles.subarray(t + 1, t + 3).reverse();
    return shape;
  }
}

/** The four rings of a tube: at its start and end, inside and outside, each with equally many points. */
export interface Tube {
  readonly inner: readonly [readonly Vec3[], readonly Vec3[]];
  readonly outer: readonly [readonly Vec3[], readonly Vec3[]];
  /** Place of the edge that has no wall. */
  readonly open?: number | undefined;
}

/** Closed: both surfaces, both ends, and the two edges beside a side without wall. */
export function tube({ inner, outer, open }: Tube): Triangles | null {
  const solid = new Solid();
  const [i0, i1, o0, o1] = [inner[0], inner[1], outer[0], outer[1]].map((ring) => solid.add(ring)) as [
    number,
    number,
    number,
    number,
  ];
  const count = inner[0].length;
  for (let p = 0; p < count; p++) {
    if (p === open) continue;
    const q = (p + 1) % count;
    solid.quad(o0 + p, o0 + q, o1 + q, o1 + p);
    solid.quad(i0 + q, i0 + p, i1 + p, i1 + q);
    solid.quad(i0 + p, i0 + q, o0 + q, o0 + p);
    solid.quad(i1 + q, i1 + p, o1 + p, o1 + q);
  }
  if (open !== undefined) {
    const next = (open + 1) % count;
    solid.quad(i0 + open, i1 + open, o1 + open, o0 + open);
    solid.quad(o0 + next, o1 + next, i1 + next, i0 + next);
  }
  return solid.shape();
}

/** An area with holes between two planes, as thick as they lie apart. @param place a point of the area, from the first plane or the second */
export function plate(area: Outlines, place: (p: Polygon[number], end: 0 | 1) => Vec3): Triangles | null {
  const solid = new Solid();
  for (const { outer, holes } of patchesOf(area)) {
    const loops = [outer, ...holes.map((hole) => [...counterClockwise(hole)].reverse())];
    const points = loops.flat();
    const [first, second] = [0, 1].map((end) => solid.add(points.map((p) => place(p, end as 0 | 1)))) as [
      number,
      number,
    ];
    const cap = triangulate(loops[0]!, loops.slice(1));
    for (let t = 0; t < cap.length; t += 3) {
      solid.triangle(first + cap[t]!, first + cap[t + 2]!, first + cap[t + 1]!);
      solid.triangle(second + cap[t]!, second + cap[t + 1]!, second + cap[t + 2]!);
    }
    let start = 0;
    for (const { length } of loops) {
      for (let i = 0; i < length; i++) {
        const [p, q] = [start + i, start + ((i + 1) % length)];
        solid.quad(first + p, first + q, second + q, second + p);
      }
      start += length;
    }
  }
  return solid.shape();
}

export interface Swept {
  /** Flat, closed, of so many points. */
  readonly profile: Polygon;
  /** Where a point of the profile lies at a corner of what it goes round. */
  readonly place: (p: Polygon[number], corner: number) => Vec3;
  /** Corners of what it goes round. */
  readonly corners: number;
  /** Whether it goes along the edge from this corner to the next. */
  readonly goesAlong: (edge: number) => boolean;
}

/** A profile that goes round; closed off where it does not go on. */
export function swept({ profile, place, corners, goesAlong }: Swept): Triangles | null {
  const solid = new Solid();
  const rings = Array.from({ length: corners }, (_, corner) => solid.add(profile.map((p) => place(p, corner))));
  const cap = triangulate(profile, []);
  for (let edge = 0; edge < corners; edge++) {
    if (!goesAlong(edge)) continue;
    const [here, there] = [rings[edge]!, rings[(edge + 1) % corners]!];
    profile.forEach((_, p) => {
      const q = (p + 1) % profile.length;
      solid.quad(here + p, here + q, there + q, there + p);
    });
    for (let t = 0; t < cap.length; t += 3) {
      const [a, b, c] = [cap[t]!, cap[t + 1]!, cap[t + 2]!];
      if (!goesAlong((edge + corners - 1) % corners)) solid.triangle(here + a, here + c, here + b);
      if (!goesAlong((edge + 1) % corners)) solid.triangle(there + a, there + b, there + c);
    }
  }
  return solid.shape();
}
