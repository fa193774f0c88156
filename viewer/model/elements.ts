/** Elements of geometry.glb by their number: boxes and lookups in flat arrays, made once for a file. */
import { nameOf } from '../../src/element-refs.js';
import type { ElementRef, Vec3 } from '../../src/model.js';
import type { ElementExtras } from '../../src/scene/geometry-extras.js';
import type { DrawnNode, Geometry } from './geometry.js';

export type ElementNode = DrawnNode<ElementExtras>;

export interface Elements {
  readonly nodes: readonly ElementNode[];
  /** As `nameOf` has them. */
  readonly names: readonly string[];
  /** Six for each: least x, y, z, greatest x, y, z; inner mm. Of what has no shape the least are greater. */
  readonly boxes: Float32Array;
  readonly all: Bounds;
  readonly find: (ref: ElementRef) => number | undefined;
}

export interface Bounds {
  readonly min: Vec3;
  readonly max: Vec3;
}

export function elementsOf({ elements: nodes }: Pick<Geometry, 'elements'>): Elements {
  const boxes = new Float32Array(6 * nodes.length);
  const [min, max] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ] as [[number, number, number], [number, number, number]];
  nodes.forEach(({ positions }, i) => {
    const box = boxes.subarray(6 * i, 6 * i + 6);
    box.set([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity]);
    for (let k = 0; k < positions.length; k += 3)
      for (let axis = 0; axis < 3; axis++) {
        const value = positions[k + axis]!;
        if (value < box[axis]!) box[axis] = value;
        if (value > box[axis + 3]!) box[axis + 3] = value;
      }
    for (let axis = 0; axis < 3; axis++) {
      min[axis] = Math.min(min[axis]!, box[axis]!);
      max[axis] = Math.max(max[axis]!, box[axis + 3]!);
    }
  });
  const names = nodes.map(({ extras }) => nameOf(extras));
  const numbers = new Map(names.map((name, i) => [name, i]));
  return { nodes, names, boxes, all: { min, max }, find: (ref) => numbers.get(nameOf(ref)) };
}

export const boxOfElement = ({ boxes }: Elements, i: number): Bounds => ({
  min: [boxes[6 * i]!, boxes[6 * i + 1]!, boxes[6 * i + 2]!],
  max: [boxes[6 * i + 3]!, boxes[6 * i + 4]!, boxes[6 * i + 5]!],
});

/** Numbers of elements whose boxes come within `reach` of the point, the nearest first. */
export function elementsNear({ boxes, nodes }: Elements, [x, y, z]: Vec3, reach: number): number[] {
  const found: { readonly i: number; readonly distance: number }[] = [];
  for (let i = 0; i < nodes.length; i++) {
    const k = 6 * i;
    const dx = Math.max(0, boxes[k]! - x, x - boxes[k + 3]!);
    const dy = Math.max(0, boxes[k + 1]! - y, y - boxes[k + 4]!);
    const dz = Math.max(0, boxes[k + 2]! - z, z - boxes[k + 5]!);
    const distance = Math.hypot(dx, dy, dz);
    if (distance <= reach) found.push({ i, distance });
  }
  return found.sort((a, b) => a.distance - b.distance || a.i - b.i).map(({ i }) => i);
}
