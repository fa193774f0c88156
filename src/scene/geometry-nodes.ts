/** What geometry.glb is written from: nodes with their triangles, in the federation's inner frame. */
import type { Vec3 } from '../model.js';
import type { ElementExtras, GeometryExtras, ProtectionExtras } from './geometry-extras.js';
import type { Triangles } from './triangulate.js';

/** By what a surface is coloured. */
export type Surface = ElementExtras['kind'] | ProtectionExtras['part'] | 'proposed';

export interface GeometryNode<E extends GeometryExtras = GeometryExtras> {
  readonly name: string;
  readonly extras: E;
  /** Null: a place alone. Nodes that share one are written with one mesh. */
  readonly shape: Triangles | null;
  readonly surface: Surface | null;
  /** Inner coordinates. */
  readonly at?: Vec3;
}
