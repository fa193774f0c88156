/** The elements of the models as meshes: a surface and its lines for each batch, and one texture that says how each looks. */
import {
  BufferAttribute,
  BufferGeometry,
  DataTexture,
  Group,
  LineSegments,
  Mesh,
  NearestFilter,
  RGFormat,
  type ShaderMaterial,
  UnsignedByteType,
  Vector3,
  Vector4,
} from 'three';
import { fileUnder } from '../../src/collect.js';
import type { Batch, Style } from './batch.js';
import { type Colours, over, type Rgb } from './colours.js';
import { cutVector, lineMaterial, NO_CUT, type SharedUniforms, surfaceMaterial } from './materials.js';
import { leaveOutOpenings } from './opening-mask.js';
import type { Cut } from './standpoint.js';

/** Texels side by side; every card takes as many. */
const ACROSS = 1024;

/** Barriers over what stands behind them: edges and 12 % of fill. Of openings only the outlines. */
const SURFACES: {
  readonly [S in Style]?: { readonly opacity: number; readonly shade: number; readonly lineOpacity: number };
} = {
  duct: { opacity: 1, shade: 0.14, lineOpacity: 0 },
  service: { opacity: 1, shade: 0.05, lineOpacity: 0 },
  context: { opacity: 0.1, shade: 0, lineOpacity: 0 },
  barrier: { opacity: 0.12, shade: 0, lineOpacity: 0.4 },
};
const LINE_OPACITY: { readonly [S in Style]: number } = {
  duct: 1,
  barrier: 1,
  opening: 0.9,
  service: 0.4,
  context: 0.3,
};

/** mm of a pixel at which the lines of things of usual size are some pixels apart. */
const FINEST: { readonly [S in Style]: number } = { duct: 150, barrier: 2000, opening: 80, service: 80, context: 150 };

export class BuildingParts {
  readonly group = new Group();
  readonly shared: SharedUniforms;
  private readonly texture: DataTexture;
  private readonly edges = new Map<Style, LineSegments[]>();
  private readonly surfaces = new Map<Style, ShaderMaterial>();
  private readonly lines = new Map<Style, ShaderMaterial>();

  /** @param elements how many there will be */
  constructor(elements: number) {
    const down = Math.max(1, Math.ceil(elements / ACROSS));
    this.texture = new DataTexture(new Uint8Array(2 * ACROSS * down), ACROSS, down, RGFormat, UnsignedByteType);
    this.texture.minFilter = NearestFilter;
    this.texture.magFilter = NearestFilter;
    this.shared = {
      ...{ cut: { value: new Vector4(...NO_CUT) }, states: { value: this.texture } },
      ...{ own: { value: new Vector3() }, selected: { value: new Vector3() } },
    };
  }

  /** @param bytes two for each element: state and hatch */
  setStates(bytes: Uint8Array): void {
    (this.texture.image.data as Uint8Array).set(bytes);
    this.texture.needsUpdate = true;
  }

  setCut(cut: Cut | null): void {
    cutVector(cut, this.shared.cut.value);
  }

  /** Lines that would run together are left out. @param millimetres of one pixel */
  setScale(millimetres: number): void {
    for (const [style, lines] of this.edges) for (const one of lines) one.visible = millimetres < FINEST[style];
  }

  setColours({ page, ink, secondary, rule, accent }: Colours): void {
    const fills: { readonly [S in Style]: Rgb } = {
      duct: over(secondary, 0.35, page),
      service: over(rule, 0.18, page),
      context: secondary,
      barrier: secondary,
      opening: page,
    };
    for (const [style, { uniforms }] of this.surfaces) {
      (uniforms.colour!.value as Vector3).set(...fills[style]);
      (uniforms.lineColour!.value as Vector3).set(...secondary);
    }
    const strokes: { readonly [S in Style]: Rgb } = {
      duct: secondary,
      barrier: rule,
      opening: rule,
      service: rule,
      context: rule,
    };
    for (const [style, { uniforms }] of this.lines) (uniforms.colour!.value as Vector3).set(...strokes[style]);
    this.shared.own.value.set(...ink);
    this.shared.selected.value.set(...accent);
  }

  dispose(): void {
    this.texture.dispose();
    for (const material of [...this.surfaces.values(), ...this.lines.values()]) material.dispose();
    for (const child of this.group.children) (child as Mesh | LineSegments).geometry.dispose();
    this.group.clear();
  }

  add({ style, positions, ids, triangles, lines }: Batch): void {
    const [position, id] = [new BufferAttribute(positions, 3), new BufferAttribute(ids, 1)];
    const shape = (index: Uint32Array): BufferGeometry =>
      new BufferGeometry()
        .setAttribute('position', position)
        .setAttribute('id', id)
        .setIndex(new BufferAttribute(index, 1));
    const look = SURFACES[style];
    if (look) {
      const mesh = new Mesh(shape(triangles), this.surface(style));
      mesh.renderOrder = look.opacity < 1 ? ORDER.seeThrough : ORDER.solid;
      this.group.add(mesh);
    }
    const edges = new LineSegments(shape(lines), this.line(style));
    edges.renderOrder = ORDER.lines;
    this.group.add(edges);
    fileUnder(this.edges, style, edges);
  }

  private surface(style: Style): ShaderMaterial {
    const known = this.surfaces.get(style) ?? surfaceMaterial(this.shared, { ...SURFACES[style]!, byElement: true });
    if (style === 'barrier') leaveOutOpenings(known);
    this.surfaces.set(style, known);
    return known;
  }

  private line(style: Style): ShaderMaterial {
    const known = this.lines.get(style) ?? lineMaterial(this.shared, LINE_OPACITY[style]);
    this.lines.set(style, known);
    return known;
  }
}

/** What is drawn over what, where depth does not decide. */
export const ORDER = { solid: 0, lines: 1, seeThrough: 2, protection: 3, rims: 5, marks: 6 } as const;
