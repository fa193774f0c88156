/** geometry.glb: what the viewer draws, and any other program that reads glTF. */
import { Document, type Scene as GltfScene, type Node, WebIO } from '@gltf-transform/core';
import { nameOf } from '../element-refs.js';
import type { Federation } from '../model.js';
import { barrierFaces } from '../scene/barrier-faces.js';
import type { ElementExtras, GeometryExtras, GeometryGroup, RootExtras } from '../scene/geometry-extras.js';
import { sceneOf } from '../scene/scene.js';
import type { Triangles } from '../scene/triangulate.js';
import type { Report } from './schema.js';

const MILLIMETRE = 0.001;
/** A quarter turn about x: Z up becomes Y up. */
const Y_UP: [number, number, number, number] = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2];

/** @param report of this federation */
export async function writeGeometry(federation: Federation, report: Report): Promise<Uint8Array> {
  const document = new Document();
  const buffer = document.createBuffer();
  const scene = sceneOf(federation);
  const root = document
    .createNode('federation')
    .setRotation(Y_UP)
    .setScale([MILLIMETRE, MILLIMETRE, MILLIMETRE])
    .setExtras({
      ...{ format: 'ratedrun-geometry', version: 1, origin: scene.origin, createdAt: report.createdAt },
    } satisfies RootExtras as unknown as Record<string, unknown>);
  const drawn: GltfScene = document.createScene().addChild(root);
  document.getRoot().setDefaultScene(drawn);
  const group = (name: GeometryGroup): Node => {
    const node = document.createNode(name);
    root.addChild(node);
    return node;
  };
  const add = (parent: Node, name: string, extras: GeometryExtras, { positions, triangles }: Triangles): void => {
    const position = document.createAccessor().setType('VEC3').setArray(new Float32Array(positions)).setBuffer(buffer);
    const indices = document.createAccessor().setType('SCALAR').setArray(triangles).setBuffer(buffer);
    const primitive = document.createPrimitive().setAttribute('POSITION', position).setIndices(indices);
    parent.addChild(
      document
        .createNode(name)
        .setMesh(document.createMesh().addPrimitive(primitive))
        .setExtras(extras as unknown as Record<string, unknown>),
    );
  };
  const elements = group('elements');
  const faces = barrierFaces(federation, report);
  const facts = new Map(
    [...federation.airElements, ...federation.barriers, ...federation.otherServices].map((one) => [nameOf(one), one]),
  );
  for (const { model, globalId, kind, host, ...triangles } of scene.elements) {
    const one = facts.get(nameOf({ model, globalId }));
    const name = one?.name ?? '';
    const extras: ElementExtras = {
      ...{ kind, model, globalId, name, host },
      storey: one?.storey?.globalId ?? null,
      system: one && 'system' in one ? (one.system ?? null) : null,
      face: kind === 'barrier' ? (faces.get(nameOf({ model, globalId })) ?? null) : null,
    };
    add(elements, name, extras, triangles);
  }
  return new WebIO().writeBinary(document);
}
