/** Many elements as one mesh: what a graphics card draws in one call. Plain arrays, nothing of any library. */
import { fileUnder } from '../../src/collect.js';
import type { ElementNode, Elements } from './elements.js';
import { sharpLines } from './sharp-lines.js';

export type Style = 'duct' | 'barrier' | 'opening' | 'service' | 'context';

export interface Batch {
  readonly style: Style;
  /** Inner mm. */
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
  /** Two vertices for each line. */
  readonly lines: Uint32Array;
  /** Number of the element of each vertex. */
  readonly ids: Float32Array;
  readonly ranges: readonly Range[];
}

/** What of a batch is one element; ends are not included. */
export interface Range {
  readonly id: number;
  readonly vertices: readonly [number, number];
  readonly triangles: readonly [number, number];
  readonly lines: readonly [number, number];
}

const STYLES: { readonly [kind: string]: Style } = {
  duct: 'duct',
  damper: 'duct',
  barrier: 'barrier',
  opening: 'opening',
  service: 'service',
};

/** What this program does not know by its kind is context. */
export const styleOf = ({ extras }: Pick<ElementNode, 'extras'>): Style => STYLES[extras.kind] ?? 'context';

/** Elements in one mesh at most: what is made in one go must not make anybody wait, and what is out of sight is skipped. */
const MOST = 1000;

/** Numbers of the elements of each batch: of one style, and near to each other. */
export function batchGroups({ nodes, boxes }: Pick<Elements, 'nodes' | 'boxes'>): number[][] {
  const groups = new Map<Style, number[]>();
  nodes.forEach((node, i) => {
    if (node.triangles.length > 0) fileUnder(groups, styleOf(node), i);
  });
  return [...groups.values()].flatMap((ids) => parted(ids, boxes));
}

/** Halved across the longest side until each part is small enough. */
function parted(ids: readonly number[], boxes: Float32Array): number[][] {
  if (ids.length <= MOST) return [[...ids]];
  const middle = (id: number, axis: number): number => boxes[6 * id + axis]! + boxes[6 * id + axis + 3]!;
  const extents = [0, 1, 2].map((axis) => {
    let [least, most] = [Infinity, -Infinity];
    for (const id of ids) {
      least = Math.min(least, middle(id, axis));
      most = Math.max(most, middle(id, axis));
    }
    return most - least;
  });
  const axis = extents.indexOf(Math.max(...extents));
  const inOrder = [...ids].sort((a, b) => middle(a, axis) - middle(b, axis) || a - b);
  const half = inOrder.length >> 1;
  return [...parted(inOrder.slice(0, half), boxes), ...parted(inOrder.slice(half), boxes)];
}

/** @param numbers of elements of one style */
export function batchOf(numbers: readonly number[], nodes: readonly ElementNode[]): Batch {
  const total = (of: (node: ElementNode) => number): number => numbers.reduce((sum, i) => sum + of(nodes[i]!), 0);
  const positions = new Float32Array(total((node) => node.positions.length));
  const triangles = new Uint32Array(total((node) => node.triangles.length));
  const ids = new Float32Array(positions.length / 3);
  const lines: number[] = [];
  const ranges: Range[] = [];
  let [vertex, corner] = [0, 0];
  for (const id of numbers) {
    const node = nodes[id]!;
    const [count, firstLine] = [node.positions.length / 3, lines.length];
    positions.set(node.positions, 3 * vertex);
    ids.fill(id, vertex, vertex + count);
    for (let k = 0; k < node.triangles.length; k++) triangles[corner + k] = node.triangles[k]! + vertex;
    for (const end of sharpLines(node.positions, node.triangles)) lines.push(end + vertex);
    ranges.push({
      id,
      vertices: [vertex, vertex + count],
      triangles: [corner, corner + node.triangles.length],
      lines: [firstLine, lines.length],
    });
    vertex += count;
    corner += node.triangles.length;
  }
  const first = nodes[numbers[0]!]!;
  return {
    ...{ style: styleOf(first), positions, triangles, ids, ranges },
    lines: Uint32Array.from(lines),
  };
}
