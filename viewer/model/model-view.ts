/** The canvas: a camera that moves once and stands still, frames only where something changed. */
import {
  Color,
  LinearSRGBColorSpace,
  Matrix4,
  OrthographicCamera,
  PerspectiveCamera,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Vec2, Vec3 } from '../../src/model.js';
import type { Colours } from './colours.js';
import type { Elements } from './elements.js';
import type { Geometry } from './geometry.js';
import { ModelScene, type Shown } from './model-scene.js';
import { type Hit, pick } from './pick.js';
import { between, eyeDistance, eyeOf, HALF_VIEW, onPicture, type Pose, rayThrough } from './standpoint.js';

/** ms. */
const MOVE = 220;

export class ModelView {
  framesDrawn = 0;
  drawCalls = 0;
  pose: Pose | undefined;
  /** Once lost, a canvas is not drawn on again. */
  isLost = false;
  private readonly renderer: WebGLRenderer;
  private readonly flat = new OrthographicCamera();
  private readonly deep = new PerspectiveCamera((2 * HALF_VIEW * 180) / Math.PI);
  private parts: ModelScene | undefined;
  private elements: Elements | undefined;
  private shown: Shown | undefined;
  private size: Vec2 = [1, 1];
  private asked = 0;
  private move: { readonly from: Pose; readonly to: Pose; readonly start: number } | undefined;

  /**
   * @param afterFrame for what is drawn over the canvas
   * @throws Error where there is no WebGL 2
   */
  constructor(
    canvas: HTMLCanvasElement,
    private colours: Colours,
    private readonly afterFrame: () => void,
  ) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, stencil: true, powerPreference: 'high-performance' });
    // Colours are the page's own and no light falls on them: nothing is converted.
    this.renderer.outputColorSpace = LinearSRGBColorSpace;
    this.renderer.localClippingEnabled = true;
    this.setColours(colours);
  }

  /** Builds what a file has; a large building takes a moment, and is seen when it is whole. @returns ms */
  async load(geometry: Geometry, elements: Elements): Promise<number> {
    const start = performance.now();
    this.parts?.dispose();
    this.elements = elements;
    const parts = new ModelScene(elements, geometry, this.colours);
    this.parts = parts;
    await parts.build(() => this.parts === parts);
    if (this.parts === parts && this.shown) this.show(this.shown);
    return performance.now() - start;
  }

  show(shown: Shown): void {
    this.shown = shown;
    this.parts?.show(shown);
    this.draw();
  }

  /** @param gently moves there, where the projection stays the same */
  stand(pose: Pose, gently: boolean): void {
    const from = this.pose;
    const isMove = gently && from !== undefined && from.perspective === pose.perspective;
    this.move = isMove ? { from, to: pose, start: performance.now() } : undefined;
    if (!isMove) this.pose = pose;
    this.draw();
  }

  setColours(colours: Colours): void {
    this.colours = colours;
    this.renderer.setClearColor(new Color().setRGB(...colours.page));
    this.parts?.setColours(colours);
    this.draw();
  }

  /** CSS pixels. */
  resize(width: number, height: number): void {
    this.size = [Math.max(1, width), Math.max(1, height)];
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.renderer.setSize(...this.size, false);
    this.draw();
  }

  /** What stands where, in CSS pixels of the canvas; nothing that is hidden or cut away. */
  pickAt(at: Vec2): Hit | undefined {
    const { pose, elements, shown } = this;
    if (!pose || !elements || !shown) return undefined;
    const reach = pose.perspective ? Infinity : pose.reach[0] + pose.reach[1];
    const isDrawn = (id: number): boolean => (shown.states[2 * id] ?? 0) !== 0;
    return pick(elements, rayThrough(pose, this.size, at), shown.cut, reach, isDrawn);
  }

  /** In CSS pixels of the canvas; undefined behind the eye. */
  project(p: Vec3): Vec2 | undefined {
    return this.pose && onPicture(this.pose, this.size, p);
  }

  /** Millimetres of one pixel at the target. */
  get pixel(): number {
    return this.pose ? (2 * this.pose.halfHeight) / this.size[1] : 1;
  }

  get pixels(): Vec2 {
    return this.size;
  }

  /** At the next frame, once, however often it is asked for. */
  draw(): void {
    if (this.asked === 0) this.asked = requestAnimationFrame(() => this.frame());
  }

  dispose(): void {
    cancelAnimationFrame(this.asked);
    // What a lost context held is gone already.
    if (!this.isLost) {
      this.parts?.dispose();
      this.renderer.dispose();
      this.renderer.forceContextLoss();
    }
    this.parts = undefined;
  }

  /** Draws now; else it is drawn with the next frame of the page. */
  frame(): void {
    this.asked = 0;
    if (this.move) {
      const { from, to, start } = this.move;
      const share = Math.min(1, (performance.now() - start) / MOVE);
      // Slows down where it ends.
      this.pose = share < 1 ? between(from, to, 1 - (1 - share) ** 3) : to;
      if (share < 1) this.draw();
      else this.move = undefined;
    }
    if (!this.pose || !this.parts || this.isLost) return;
    const [width, height] = this.size;
    this.parts.setScale(width, height, this.pixel);
    this.renderer.render(this.parts.scene, this.camera(this.pose, width / height));
    this.framesDrawn++;
    this.drawCalls = this.renderer.info.render.calls;
    this.afterFrame();
  }

  private camera(pose: Pose, aspect: number): OrthographicCamera | PerspectiveCamera {
    const camera = pose.perspective ? this.deep : this.flat;
    const [eye, target, up] = [eyeOf(pose), pose.target, pose.up].map((p) => new Vector3(...p));
    camera.position.copy(eye!);
    camera.quaternion.setFromRotationMatrix(new Matrix4().lookAt(eye!, target!, up!));
    if (camera instanceof PerspectiveCamera) {
      camera.aspect = aspect;
      // Depth is shared out by the distance: never so near that far things flicker.
      camera.near = Math.max(20, eyeDistance(pose) / 50);
      camera.far = eyeDistance(pose) + Math.max(pose.reach[1], 6 * pose.halfHeight);
    } else {
      [camera.top, camera.right] = [pose.halfHeight, pose.halfHeight * aspect];
      [camera.bottom, camera.left] = [-camera.top, -camera.right];
      [camera.near, camera.far] = [0, pose.reach[0] + pose.reach[1]];
    }
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    return camera;
  }
}
