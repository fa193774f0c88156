/**
 * A glTF 2.0 binary (ISO/IEC 12113) of meshes without more than places and colours. A general library took 26 s and 1.5 GB
 * more for 40,000 elements with their protection, since it makes several objects of each; here all positions lie in one view of
 * the buffer, all indices in two.
 */
import type { Vec3 } from '../model.js';

export interface GlbShape {
  readonly positions: ArrayLike<number>;
  readonly triangles: ArrayLike<number>;
}

export interface GlbNode {
  readonly name: string;
  readonly translation?: Vec3 | undefined;
  readonly rotation?: readonly [number, number, number, number];
  readonly scale?: Vec3;
  readonly mesh?: number | undefined;
  readonly children?: readonly number[];
  readonly extras?: object;
}

/** Linear light, 0 to 1, and opacity. */
export interface GlbMaterial {
  readonly name: string;
  readonly colour: readonly [number, number, number];
  readonly opacity: number;
}

interface Accessor {
  readonly view: keyof Views;
  readonly byteOffset: number;
  readonly count: number;
  readonly min?: readonly number[];
  readonly max?: readonly number[];
}

interface Views {
  readonly positions: Float32Array[];
  readonly long: Uint32Array[];
  readonly short: Uint16Array[];
}

/** In the order in which they lie in the buffer: each begins where its numbers may. */
const VIEWS = {
  positions: { target: 34962, componentType: 5126, type: 'VEC3', byteStride: 12 },
  long: { target: 34963, componentType: 5125, type: 'SCALAR', byteStride: undefined },
  short: { target: 34963, componentType: 5123, type: 'SCALAR', byteStride: undefined },
} as const satisfies { readonly [V in keyof Views]: object };
const VIEW_NAMES = Object.keys(VIEWS) as (keyof Views)[];
/** The highest index of 16 bits restarts a strip. */
const MOST_SHORT = 0xffff;

export class Glb {
  private readonly nodes: GlbNode[] = [];
  private readonly meshes: object[] = [];
  private readonly materials: object[] = [];
  private readonly accessors: Accessor[] = [];
  private readonly views: Views = { positions: [], long: [], short: [] };
  private readonly sizes = { positions: 0, long: 0, short: 0 };

  /** @returns its number */
  node(node: GlbNode): number {
    return this.nodes.push(node) - 1;
  }

  /** Seen from both sides, since nobody trusts the winding of meshes in models. */
  material({ name, colour, opacity }: GlbMaterial): number {
    const pbrMetallicRoughness = { baseColorFactor: [...colour, opacity], metallicFactor: 0, roughnessFactor: 1 };
    const alphaMode = opacity < 1 ? 'BLEND' : 'OPAQUE';
    return this.materials.push({ name, pbrMetallicRoughness, alphaMode, doubleSided: true }) - 1;
  }

  mesh({ positions, triangles }: GlbShape, material: number): number {
    const places = Float32Array.from(positions);
    const POSITION = this.accessor('positions', places, places.length / 3, rangeOf(places));
    const indices =
      places.length / 3 <= MOST_SHORT
        ? this.accessor('short', Uint16Array.from(triangles), triangles.length)
        : this.accessor('long', Uint32Array.from(triangles), triangles.length);
    return this.meshes.push({ primitives: [{ attributes: { POSITION }, indices, material }] }) - 1;
  }

  /** @param root number of the node that holds all others */
  bytes(root: number): Uint8Array {
    const bin = new Uint8Array(padded(VIEW_NAMES.reduce((sum, view) => sum + this.sizes[view], 0)));
    const used = VIEW_NAMES.filter((view) => this.sizes[view] > 0);
    let at = 0;
    const bufferViews = used.map((view) => {
      const { target, byteStride } = VIEWS[view];
      const byteOffset = at;
      for (const part of this.views[view]) {
        bin.set(new Uint8Array(part.buffer, part.byteOffset, part.byteLength), at);
        at += part.byteLength;
      }
      return { buffer: 0, byteOffset, byteLength: this.sizes[view], byteStride, target };
    });
    const accessors = this.accessors.map(({ view, byteOffset, count, min, max }) => {
      const { componentType, type } = VIEWS[view];
      return { bufferView: used.indexOf(view), byteOffset, componentType, count, type, min, max };
    });
    const { nodes, meshes, materials } = this;
    const lists = { nodes, meshes, materials, accessors, bufferViews };
    const buffers = bin.length > 0 ? [{ byteLength: bin.length }] : [];
    const written = Object.entries({ ...lists, buffers }).filter(([, list]) => list.length > 0);
    const gltf = { asset: { version: '2.0' }, scene: 0, scenes: [{ nodes: [root] }], ...Object.fromEntries(written) };
    return container(new TextEncoder().encode(JSON.stringify(gltf)), bin);
  }

  private accessor<V extends keyof Views>(
    view: V,
    values: Views[V][number],
    count: number,
    range?: Pick<Accessor, 'min' | 'max'>,
  ): number {
    const byteOffset = this.sizes[view];
    (this.views[view] as Views[V][number][]).push(values);
    this.sizes[view] += values.byteLength;
    return this.accessors.push({ view, byteOffset, count, ...range }) - 1;
  }
}

function rangeOf(places: Float32Array): Required<Pick<Accessor, 'min' | 'max'>> {
  const [min, max] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ] as [number[], number[]];
  for (let i = 0; i < places.length; i++) {
    const value = places[i]!;
    if (value < min[i % 3]!) min[i % 3] = value;
    if (value > max[i % 3]!) max[i % 3] = value;
  }
  return { min, max };
}

const padded = (size: number): number => Math.ceil(size / 4) * 4;

/** Two chunks with their lengths; text is filled up with spaces, numbers with zeros. */
function container(json: Uint8Array, bin: Uint8Array): Uint8Array {
  const text = padded(json.length);
  const hasBin = bin.length > 0;
  const bytes = new Uint8Array(20 + text + (hasBin ? 8 + bin.length : 0));
  const head = new DataView(bytes.buffer);
  const put = (at: number, ...values: readonly number[]): void => {
    values.forEach((value, i) => {
      head.setUint32(at + 4 * i, value, true);
    });
  };
  put(0, GLTF, 2, bytes.length, text, JSON_CHUNK);
  bytes.set(json, 20);
  bytes.fill(SPACE, 20 + json.length, 20 + text);
  if (!hasBin) return bytes;
  put(20 + text, bin.length, BIN_CHUNK);
  bytes.set(bin, 28 + text);
  return bytes;
}

const GLTF = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BIN_CHUNK = 0x004e4942;
const SPACE = 0x20;
