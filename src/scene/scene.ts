/**
 * What is drawn of a federation: plain triangles by element, kept beside the report. The snapshot of a topic is drawn
 * from it, and any other view of the building can be.
 *
 * Coordinates are the federation's inner ones (millimetres, Z up): add `origin` for the world's. Barriers stay whole and
 * their openings apart, as they are read; who draws leaves out what lies in an opening.
 */
import type { Body, ElementRef, Federation, Vec3 } from '../model.js';
import { type Triangles, triangulate } from './triangulate.js';

export type DrawnKind = 'duct' | 'damper' | 'barrier' | 'opening' | 'service';

export interface Box3 {
  readonly min: Vec3;
  readonly max: Vec3;
}

export interface SceneElement extends ElementRef, Triangles {
  readonly kind: DrawnKind;
  readonly box: Box3;
  /** The barrier that an opening is in; null for everything else. */
  readonly host: ElementRef | null;
}

export interface Scene {
  /** Whole metres, see `Federation.origin`. */
  readonly origin: Vec3;
  readonly elements: readonly SceneElement[];
}

/**
 * @param near world positions; only what lies within `reach` of one of them is drawn. Left out: everything.
 * @param reach mm, along each axis
 */
export function sceneOf(federation: Federation, near?: readonly Vec3[], reach = 0): Scene {
  const { origin } = federation;
  const places = near?.map((p): Vec3 => [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]]);
  const isNear = (box: Box3): boolean => places === undefined || places.some((p) => holds(box, p, reach));
  const elements: SceneElement[] = [];
  const draw = (
    kind: DrawnKind,
    element: ElementRef & { readonly bodies: readonly Body[] },
    host?: ElementRef,
  ): void => {
    if (element.bodies.length === 0) return;
    const shape = triangulate(element.bodies);
    const box = boxOf(shape);
    if (!isNear(box)) return;
    const { model, globalId } = element;
    elements.push({
      model,
      globalId,
      kind,
      ...shape,
      box,
      host: host ? { model: host.model, globalId: host.globalId } : null,
    });
  };
  for (const air of federation.airElements) draw(air.kind === 'damper' ? 'damper' : 'duct', air);
  for (const service of federation.otherServices) draw('service', service);
  for (const barrier of federation.barriers) {
    draw('barrier', barrier);
    for (const opening of barrier.openings) draw('opening', opening, barrier);
  }
  return { origin, elements };
}

export function boxOf({ positions }: Triangles): Box3 {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const axis = i % 3;
    if (positions[i]! < min[axis]!) min[axis] = positions[i]!;
    if (positions[i]! > max[axis]!) max[axis] = positions[i]!;
  }
  return { min, max };
}

/** Is the point in the box, or within `reach` of it along each axis? */
export const holds = ({ min, max }: Box3, p: Vec3, reach: number): boolean =>
  [0, 1, 2].every((axis) => p[axis]! >= min[axis]! - reach && p[axis]! <= max[axis]! + reach);
