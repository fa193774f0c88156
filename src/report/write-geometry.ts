/** geometry.glb: what the viewer draws, and any other program that reads glTF. */
import { EDGE, INK, PAGE, type Rgb, SECONDARY } from '../draw/palette.js';
import type { Federation } from '../model.js';
import { elementNodes } from '../scene/drawn-elements.js';
import { findingNodes } from '../scene/finding-nodes.js';
import type { GeometryGroup, RootExtras } from '../scene/geometry-extras.js';
import type { GeometryNode, Surface } from '../scene/geometry-nodes.js';
import { proposedNodes } from '../scene/proposed.js';
import { protectionNodes } from '../scene/protection/protection-nodes.js';
import type { Triangles } from '../scene/triangulate.js';
import { Glb } from './glb.js';
import type { Report } from './schema.js';

const MILLIMETRE = 0.001;
/** A quarter turn about x: Z up becomes Y up. */
const Y_UP = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2] as const;

/** @param report of this federation */
export function writeGeometry(federation: Federation, report: Report): Uint8Array {
  const file = new GeometryFile();
  return file.bytes({
    ...{ format: 'ratedrun-geometry', version: 1, origin: federation.origin, createdAt: report.createdAt },
    groups: [
      file.group('elements', elementNodes(federation, report)),
      file.group('protection', protectionNodes(federation, report)),
      file.group('findings', findingNodes(federation, report)),
      file.group('proposed', proposedNodes(federation, report)),
    ],
  });
}

class GeometryFile {
  private readonly glb = new Glb();
  private readonly materials = new Map<Surface, number>();

  /** @returns numbers of its node, where there is any */
  group(name: GeometryGroup, nodes: readonly GeometryNode[]): number[] {
    if (nodes.length === 0) return [];
    const meshes = new Map<Triangles, number>();
    const meshOf = (shape: Triangles, surface: Surface): number => {
      const mesh = meshes.get(shape) ?? this.glb.mesh(shape, this.material(surface));
      meshes.set(shape, mesh);
      return mesh;
    };
    const children = nodes.map(({ name: own, extras, shape, surface, at }) => {
      const mesh = shape && surface ? meshOf(shape, surface) : undefined;
      return this.glb.node({ name: own, mesh, translation: at, extras });
    });
    return [this.glb.node({ name, children })];
  }

  bytes({ groups, ...extras }: RootExtras & { readonly groups: readonly number[][] }): Uint8Array {
    const children = groups.flat();
    const scale = [MILLIMETRE, MILLIMETRE, MILLIMETRE] as const;
    const root = { name: 'federation', rotation: Y_UP, scale, extras };
    return this.glb.bytes(this.glb.node(children.length > 0 ? { ...root, children } : root));
  }

  private material(surface: Surface): number {
    const known = this.materials.get(surface);
    if (known !== undefined) return known;
    const [colour, opacity] = SURFACES[surface];
    const [red, green, blue] = colour;
    const material = this.glb.material({
      ...{ name: surface, opacity },
      colour: [linear(red), linear(green), linear(blue)],
    });
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
