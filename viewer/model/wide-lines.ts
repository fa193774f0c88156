/** Lines some pixels wide, drawn in one call; outlines of penetrations and of what is proposed. */
import { Color, type Plane, type Vector2 } from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import type { Rgb } from './colours.js';

export interface WideLook {
  /** Pixels. */
  readonly width: number;
  readonly dashed?: boolean;
  /** Over everything, whatever stands before it. */
  readonly over?: boolean;
}

export class WideLines {
  readonly object: LineSegments2;
  private readonly material: LineMaterial;

  /** @param colours r, g, b of both ends of each line; left out: `setColour` */
  constructor({ width, dashed = false, over = false }: WideLook, order: number, clippingPlanes: Plane[] = []) {
    this.material = new LineMaterial({ linewidth: width, dashed, depthTest: !over, depthWrite: false, clippingPlanes });
    this.material.transparent = true;
    this.object = new LineSegments2(new LineSegmentsGeometry(), this.material);
    this.object.renderOrder = order;
    this.object.frustumCulled = false;
    this.object.visible = false;
  }

  /** @param lines six numbers for each */
  set(lines: Float32Array | readonly number[], colours?: Float32Array | number[]): void {
    this.object.geometry.dispose();
    this.object.visible = lines.length > 0;
    const shape = new LineSegmentsGeometry();
    if (lines.length > 0) {
      shape.setPositions(Float32Array.from(lines));
      if (colours) shape.setColors(colours);
    }
    this.material.vertexColors = colours !== undefined;
    this.material.needsUpdate = true;
    this.object.geometry = shape;
    if (this.material.dashed && lines.length > 0) this.object.computeLineDistances();
  }

  setColour(colour: Rgb): void {
    this.material.color = new Color().setRGB(...colour);
  }

  /** @param millimetres of one pixel: dashes are as long on the screen whatever the scale */
  setScale(resolution: Vector2, millimetres: number): void {
    this.material.resolution.copy(resolution);
    this.material.dashSize = DASH * millimetres;
    this.material.gapSize = GAP * millimetres;
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.material.dispose();
  }
}
/** Pixels. */
const [DASH, GAP] = [7, 5];
