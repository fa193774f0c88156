/** Marks of outcomes at penetrations: as large on the screen at any scale, all in one call. */
import { BufferAttribute, BufferGeometry, Mesh, ShaderMaterial, Vector2 } from 'three';
import { DOT_RADIUS, MARK_GRID, MARKS } from '../../src/draw/marks.js';
import type { Outcome, Vec3 } from '../../src/model.js';
import { ORDER } from './building-parts.js';
import type { Colours } from './colours.js';
import type { SharedUniforms } from './materials.js';

export interface Sign {
  /** Inner mm. */
  readonly at: Vec3;
  readonly outcome: Outcome;
}

/** Pixels: a mark's height, and how far over its place it stands. */
const [SIZE, OVER] = [16, 13];
const DOT_SIDES = 8;

export class MarkSigns {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  private signs: readonly Sign[] = [];

  constructor(shared: SharedUniforms) {
    const material = new ShaderMaterial({
      vertexShader: /* glsl */ `
        attribute vec2 offset;
        attribute vec3 colour;
        uniform vec2 pixels;
        uniform vec4 cut;
        varying vec3 vColour;
        void main() {
          vColour = colour;
          vec4 at = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
          at.xy += offset / pixels * 2.0 * at.w;
          bool away = dot(position, cut.xyz) > cut.w;
          gl_Position = away ? vec4(2.0, 2.0, 2.0, 1.0) : at;
        }`,
      fragmentShader: /* glsl */ `
        varying vec3 vColour;
        void main() { gl_FragColor = vec4(vColour, 1.0); }`,
      uniforms: { pixels: { value: new Vector2(1, 1) }, cut: shared.cut },
      ...{ depthTest: false, depthWrite: false, transparent: true },
    });
    this.object = new Mesh(new BufferGeometry(), material);
    this.object.renderOrder = ORDER.marks;
    this.object.frustumCulled = false;
    this.object.visible = false;
  }

  /** The last are drawn over the others. */
  set(signs: readonly Sign[], colours: Colours): void {
    this.signs = signs;
    const [anchors, offsets, tints]: [number[], number[], number[]] = [[], [], []];
    for (const { at, outcome } of signs)
      for (const [x, y] of corners(outcome)) {
        anchors.push(...at);
        offsets.push(((x - MARK_GRID / 2) * SIZE) / MARK_GRID, OVER + ((MARK_GRID / 2 - y) * SIZE) / MARK_GRID);
        tints.push(...colours.outcomes[outcome]);
      }
    this.object.geometry.dispose();
    this.object.geometry = new BufferGeometry()
      .setAttribute('position', new BufferAttribute(Float32Array.from(anchors), 3))
      .setAttribute('offset', new BufferAttribute(Float32Array.from(offsets), 2))
      .setAttribute('colour', new BufferAttribute(Float32Array.from(tints), 3));
    this.object.visible = signs.length > 0;
  }

  setColours(colours: Colours): void {
    this.set(this.signs, colours);
  }

  setPixels(width: number, height: number): void {
    (this.object.material.uniforms.pixels!.value as Vector2).set(width, height);
  }

  dispose(): void {
    this.object.geometry.dispose();
    this.object.material.dispose();
  }
}

/** Triangles of a mark on its grid. */
function corners(outcome: Outcome): [number, number][] {
  const { boxes, dots } = MARKS[outcome];
  return [
    ...boxes.flatMap(([x, y, w, h]): [number, number][] => [
      ...([
        [x, y],
        [x, y + h],
        [x + w, y],
      ] as [number, number][]),
      ...([
        [x + w, y],
        [x, y + h],
        [x + w, y + h],
      ] as [number, number][]),
    ]),
    ...dots.flatMap(([cx, cy]) =>
      Array.from({ length: DOT_SIDES }, (_, i): [number, number][] => {
        const on = (k: number): [number, number] => {
          const turn = (2 * Math.PI * k) / DOT_SIDES;
          return [cx + DOT_RADIUS * Math.cos(turn), cy + DOT_RADIUS * Math.sin(turn)];
        };
        return [[cx, cy], on(i + 1), on(i)];
      }).flat(),
    ),
  ];
}
