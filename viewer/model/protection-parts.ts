/** Protection as it is to be built: hatched by what it is made of, a mesh for each storey and material. */
import {
  BufferAttribute,
  BufferGeometry,
  Group,
  LineSegments,
  Mesh,
  type ShaderMaterial,
  type Vector3,
  Vector4,
} from 'three';
import { fileUnder } from '../../src/collect.js';
import type { ProtectionExtras } from '../../src/scene/geometry-extras.js';
import { ORDER } from './building-parts.js';
import { type Colours, over } from './colours.js';
import { PATTERN, type Pattern } from './element-state.js';
import type { DrawnNode } from './geometry.js';
import { cutVector, lineMaterial, NO_CUT, type SharedUniforms, surfaceMaterial } from './materials.js';
import { sharpLines } from './sharp-lines.js';
import type { Cut } from './standpoint.js';

/** Angles and collars stand on the face, which is where everything else is cut, mm. */
const ON_FACE = 60;

/** A second layer crosses the first. Small parts are shown as they are. */
export function patternOf({ part, layer }: Pick<ProtectionExtras, 'part' | 'layer'>): Pattern {
  if (part === 'board' || part === 'boardCollar') return PATTERN.diagonal;
  if (part === 'blanket' || part === 'localBuildUp') return layer > 1 ? PATTERN.crossed : PATTERN.wavy;
  return PATTERN.none;
}

export class ProtectionParts {
  readonly group = new Group();
  private readonly shared: SharedUniforms;
  private readonly surfaces = new Map<Pattern, ShaderMaterial>();
  private readonly lines: ShaderMaterial;
  private readonly storeys: { readonly storey: string | null; readonly parts: readonly [Mesh, LineSegments] }[] = [];

  constructor(nodes: readonly DrawnNode<ProtectionExtras>[], shared: SharedUniforms) {
    this.shared = { ...shared, cut: { value: new Vector4(...NO_CUT) } };
    this.lines = lineMaterial(this.shared, 1, false);
    const groups = new Map<string, DrawnNode<ProtectionExtras>[]>();
    for (const node of nodes)
      if (node.triangles.length > 0) fileUnder(groups, `${patternOf(node.extras)} ${node.extras.storey ?? ''}`, node);
    for (const list of groups.values()) this.add(list);
  }

  setCut(cut: Cut | null): void {
    cutVector(cut, this.shared.cut.value, ON_FACE);
  }

  show(protection: boolean, isHere: (storey: string | null) => boolean): void {
    this.group.visible = protection;
    for (const { storey, parts } of this.storeys) for (const part of parts) part.visible = isHere(storey);
  }

  setColours({ sheet, ink, secondary, page }: Colours): void {
    for (const [pattern, { uniforms }] of this.surfaces) {
      const fill = pattern === PATTERN.none ? over(secondary, 0.6, page) : sheet;
      (uniforms.colour!.value as Vector3).set(...fill);
      (uniforms.lineColour!.value as Vector3).set(...ink);
    }
    (this.lines.uniforms.colour!.value as Vector3).set(...secondary);
  }

  dispose(): void {
    this.lines.dispose();
    for (const material of this.surfaces.values()) material.dispose();
    for (const { parts } of this.storeys) for (const part of parts) part.geometry.dispose();
    this.group.clear();
  }

  private add(nodes: readonly DrawnNode<ProtectionExtras>[]): void {
    const { extras } = nodes[0]!;
    const positions = new Float32Array(nodes.reduce((sum, node) => sum + node.positions.length, 0));
    const triangles: number[] = [];
    const edges: number[] = [];
    let first = 0;
    for (const node of nodes) {
      positions.set(node.positions, 3 * first);
      for (const corner of node.triangles) triangles.push(first + corner);
      for (const end of sharpLines(node.positions, node.triangles)) edges.push(first + end);
      first += node.positions.length / 3;
    }
    const position = new BufferAttribute(positions, 3);
    const shape = (index: readonly number[]): BufferGeometry =>
      new BufferGeometry().setAttribute('position', position).setIndex(new BufferAttribute(Uint32Array.from(index), 1));
    const parts = [
      new Mesh(shape(triangles), this.surface(patternOf(extras))),
      new LineSegments(shape(edges), this.lines),
    ] as const;
    for (const part of parts) {
      part.renderOrder = ORDER.protection;
      this.group.add(part);
    }
    this.storeys.push({ storey: extras.storey, parts });
  }

  private surface(pattern: Pattern): ShaderMaterial {
    const look = { opacity: pattern === PATTERN.none ? 0.8 : 0.3, pattern, lineOpacity: 0.45, byElement: false };
    const known = this.surfaces.get(pattern) ?? surfaceMaterial(this.shared, look);
    this.surfaces.set(pattern, known);
    return known;
  }
}
