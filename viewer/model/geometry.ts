/**
 * geometry.glb as the viewer reads it: the file's own arrays, no object for each of 50,000 elements. Only what this program
 * writes is understood; `src/report/write-geometry.ts` is its other end.
 */
import type {
  BarrierFace,
  ElementExtras,
  FindingExtras,
  GeometryExtras,
  GeometryGroup,
  ProposedExtras,
  ProtectionExtras,
  RootExtras,
} from '../../src/scene/geometry-extras.js';

/** In the federation's inner frame: millimetres, Z up, `origin` to be added for the world's. */
export interface DrawnNode<E extends GeometryExtras> {
  readonly name: string;
  readonly extras: E;
  /** Views of the file's bytes; empty where nothing is drawn. */
  readonly positions: Float32Array;
  readonly triangles: Uint32Array | Uint16Array;
}

export interface Geometry extends RootExtras {
  readonly elements: readonly DrawnNode<ElementExtras>[];
  readonly protection: readonly DrawnNode<ProtectionExtras>[];
  readonly findings: readonly DrawnNode<FindingExtras>[];
  readonly proposed: readonly DrawnNode<ProposedExtras>[];
  /** By `model/globalId` of the barrier. */
  readonly faces: ReadonlyMap<string, BarrierFace>;
}

/** What of glTF stands in the file. */
interface Gltf {
  readonly nodes: readonly {
    readonly name?: string;
    readonly children?: readonly number[];
    readonly mesh?: number;
    readonly extras?: unknown;
  }[];
  readonly meshes?: readonly {
    readonly primitives: readonly { readonly attributes: { readonly POSITION: number }; readonly indices: number }[];
  }[];
  readonly accessors?: readonly {
    readonly bufferView: number;
    readonly byteOffset?: number;
    readonly componentType: number;
    readonly count: number;
  }[];
  readonly bufferViews?: readonly { readonly byteOffset?: number; readonly byteStride?: number }[];
}

export class GeometryError extends Error {}

const MAGIC = 0x46546c67;
const UNSIGNED_SHORT = 5123;
const NO_POSITIONS = new Float32Array(0);
const NO_TRIANGLES = new Uint32Array(0);

/** @throws GeometryError in words that follow the file's name */
export function readGeometry(bytes: ArrayBuffer): Geometry {
  const head = new DataView(bytes);
  if (bytes.byteLength < 20 || head.getUint32(0, true) !== MAGIC)
    throw new GeometryError('is no glTF of this program; check the models again.');
  const jsonLength = head.getUint32(12, true);
  const gltf = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 20, jsonLength))) as Gltf;
  const bin = 20 + jsonLength + 8;
  const root = gltf.nodes.find(({ extras }) => (extras as RootExtras | undefined)?.format === 'ratedrun-geometry');
  if (!root) throw new GeometryError('was not written by this program; check the models again.');
  const array = <A>(index: number, make: (at: number, count: number, isShort: boolean) => A): A => {
    const { bufferView, byteOffset = 0, componentType, count } = gltf.accessors![index]!;
    const view = gltf.bufferViews![bufferView]!;
    return make(bin + (view.byteOffset ?? 0) + byteOffset, count, componentType === UNSIGNED_SHORT);
  };
  const drawn = <E extends GeometryExtras>({ name = '', mesh, extras }: Gltf['nodes'][number]): DrawnNode<E> => {
    const primitive = mesh === undefined ? undefined : gltf.meshes![mesh]!.primitives[0]!;
    return {
      ...{ name, extras: extras as E },
      positions: primitive
        ? array(primitive.attributes.POSITION, (at, count) => new Float32Array(bytes, at, 3 * count))
        : NO_POSITIONS,
      triangles: primitive
        ? array(primitive.indices, (at, count, isShort) =>
            isShort ? new Uint16Array(bytes, at, count) : new Uint32Array(bytes, at, count),
          )
        : NO_TRIANGLES,
    };
  };
  const group = <E extends GeometryExtras>(name: GeometryGroup): DrawnNode<E>[] => {
    const node = root.children?.map((i) => gltf.nodes[i]!).find((one) => one.name === name);
    return (node?.children ?? []).map((i) => drawn<E>(gltf.nodes[i]!));
  };
  const elements = group<ElementExtras>('elements');
  return {
    ...(root.extras as RootExtras),
    elements,
    protection: group('protection'),
    findings: group('findings'),
    proposed: group('proposed'),
    faces: new Map(
      elements.flatMap(({ extras: { model, globalId, face } }) =>
        face ? [[`${model}/${globalId}`, face] as const] : [],
      ),
    ),
  };
}
