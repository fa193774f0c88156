/** Openings let one see through the fill of their barrier: they are drawn into the stencil, and barriers leave them out. */
import {
  AlwaysStencilFunc,
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  type Material,
  Mesh,
  MeshBasicMaterial,
  NotEqualStencilFunc,
  type Plane,
  ReplaceStencilOp,
} from 'three';
import type { Polygon, Vec3 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import { filled } from './filled.js';
import { onFace, placeOf } from './place.js';

/** After what is solid, before barriers. */
const ORDER = 1.5;
/** mm before the face, less than where everything is cut. */
const BEFORE = 0.5;

export class OpeningMask {
  readonly object: Mesh<BufferGeometry, MeshBasicMaterial>;

  constructor(clippingPlanes: Plane[]) {
    const material = new MeshBasicMaterial({
      ...{ side: DoubleSide, colorWrite: false, depthWrite: false, clippingPlanes },
      ...{ stencilWrite: true, stencilRef: 1, stencilFunc: AlwaysStencilFunc, stencilZPass: ReplaceStencilOp },
      transparent: true,
    });
    this.object = new Mesh(new BufferGeometry(), material);
    this.object.renderOrder = ORDER;
    this.object.frustumCulled = false;
    this.object.visible = false;
  }

  set(penetrations: readonly ReportPenetration[], origin: Vec3): void {
    const corners = penetrations.flatMap((p) => {
      const place = placeOf(p, origin);
      const outlines: readonly Polygon[] = place.opening.length > 0 ? place.opening : place.duct;
      return (['A', 'B'] as const).flatMap((side) => filled(outlines, (q) => onFace(place, side, q, BEFORE)));
    });
    this.object.geometry.dispose();
    this.object.geometry = new BufferGeometry().setAttribute(
      'position',
      new BufferAttribute(Float32Array.from(corners), 3),
    );
    this.object.visible = corners.length > 0;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}

/** Of what is not seen where an opening is. */
export function leaveOutOpenings(material: Material): void {
  material.stencilWrite = true;
  material.stencilRef = 1;
  material.stencilFunc = NotEqualStencilFunc;
}
