/** geometry.glb: what the viewer draws, and any other program that reads glTF. */
import {
  type Buffer,
  Document,
  type Material,
  type Mesh,
  type Node,
  VertexLayout,
  type vec3,
  WebIO,
} from '@gltf-transform/core';
import { EDGE, INK, PAGE, type Rgb, SECONDARY } from '../draw/palette.js';
import type { Federation } from '../model.js';
import { elementNodes } from '../scene/drawn-elements.js';
import { findingNodes } from '../scene/finding-nodes.js';
import type { GeometryGroup, RootExtras } from '../scene/geometry-extras.js';
import type { GeometryNode, Surface } from '../scene/geometry-nodes.js';
import { proposedNodes } from '../scene/proposed.js';
import { protectionNodes } from '../scene/protection/protection-nodes.js';
import type { Triangles } from '../scene/triangulate.js';
import type { Report } from './schema.js';

const MILLIMETRE = 0.001;
/** A quarter turn about x: Z up becomes Y up. */
const Y_UP: [number, number, number, number] = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2];
/** The highest index of 16 bits restarts a strip. */
const MOST_SHORT = 0xffff;

/** @param report of this federation */
export async function writeGeometry(federation: Federation, report: Report): Promise<Uint8Array> {
  const file = new GeometryFile({
    ...{ format: 'ratedrun-geometry', version: 1, origin: federation.origin, createdAt: report.createdAt },
  });
  file.group('elements', elementNodes(federation, report));
  file.group('protection', protectionNodes(federation, report));
  file.group('findings', findingNodes(federation, report));
  file.group('proposed', proposedNodes(federation, report));
  return file.bytes();
}

class GeometryFile {
  private readonly document = new Document();
  private readonly buffer: Buffer = this.document.createBuffer();
  private readonly root: Node;
  private readonly materials = new Map<Surface, Material>();

  constructor(extras: RootExtras) {
    this.root = this.document
      .createNode('federation')
      .setRotation(Y_UP)
      .setScale([MILLIMETRE, MILLIMETRE, MILLIMETRE])
      .setExtras({ ...extras });
    const scene = this.document.createScene().addChild(this.root);
    this.document.getRoot().setDefaultScene(scene);
  }

  group(name: GeometryGroup, nodes: readonly GeometryNode[]): void {
    if (nodes.length === 0) return;
    const group = this.document.createNode(name);
    this.root.addChild(group);
    const meshes = new Map<Triangles, Mesh>();
    for (const { name: own, extras, shape, surface, at } of nodes) {
      const node = this.document.createNode(own).setExtras({ ...extras });
      if (at) node.setTranslation([...at] as vec3);
      if (shape && surface) {
        const mesh = meshes.get(shape) ?? this.mesh(shape, surface);
        meshes.set(shape, mesh);
        node.setMesh(mesh);
      }
      group.addChild(node);
    }
  }

  bytes(): Promise<Uint8Array> {
    return new WebIO().setVertexLayout(VertexLayout.SEPARATE).writeBinary(this.document);
  }

  private mesh({ positions, triangles }: Triangles, surface: Surface): Mesh {
    const { document, buffer } = this;
    const position = document.createAccessor().setType('VEC3').setArray(new Float32Array(positions)).setBuffer(buffer);
    const isShort = positions.length / 3 <= MOST_SHORT;
    const indices = document
      .createAccessor()
      .setType('SCALAR')
      .setArray(isShort ? new Uint16Array(triangles) : triangles)
      .setBuffer(buffer);
    const primitive = document
      .createPrimitive()
      .setAttribute('POSITION', position)
      .setIndices(indices)
      .setMaterial(this.material(surface));
    return document.createMesh().addPrimitive(primitive);
  }

  /** Seen from both sides, since nobody trusts the winding of meshes in models. */
  private material(surface: Surface): Material {
    const known = this.materials.get(surface);
    if (known) return known;
    const [colour, opacity] = SURFACES[surface];
    const material = this.document
      .createMaterial(surface)
      .setBaseColorFactor([...colour.map(linear), opacity] as [number, number, number, number])
      .setMetallicFactor(0)
      .setRoughnessFactor(1)
      .setDoubleSided(true)
      .setAlphaMode(opacity < 1 ? 'BLEND' : 'OPAQUE');
    this.materials.set(surface, material);
    return material;
  }
}

/** As IEC 61966-2-1 has it: glTF wants what light does, drawings say what is shown. */
function linear(value: number): number {
  const share = value / 255;
  return Number((share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4).toFixed(4));
}

/** Neutral: outcomes have their colours at findings alone. */
const SURFACES: { readonly [S in Surface]: readonly [Rgb, number] } = {
  duct: [SECONDARY, 1],
  damper: [EDGE, 1],
  service: [EDGE, 1],
  barrier: [SECONDARY, 0.12],
  opening: [PAGE, 0.2],
  context: [EDGE, 0.35],
  blanket: [PAGE, 0.5],
  board: [PAGE, 0.7],
  localBuildUp: [PAGE, 0.5],
  boardCollar: [PAGE, 0.9],
  angle: [SECONDARY, 1],
  sealant: [SECONDARY, 1],
  packing: [EDGE, 1],
  accessPanel: [SECONDARY, 1],
  proposed: [INK, 0.4],
};
