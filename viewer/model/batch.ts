/** Many elements as one mesh: what a graphics card draws in one call. Plain arrays, nothing of any library. */
import { fileUnder } from '../../src/collect.js';
import type { ElementNode } from './elements.js';
import { sharpLines } from './sharp-lines.js';

export type Style = 'duct' | 'barrier' | 'opening' | 'service' | 'context';

export interface Batch {
  readonly style: Style;
  /** GlobalId; null: not said. Batches end with storeys, so that what is out of sight is skipped as a whole. */
  readonly storey: string | null;
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

/** Elements in one mesh at most: what is made in one go must not make anybody wait. */
const MOST = 2000;

/** Numbers of the elements of each batch. */
export function batchGroups(nodes: readonly ElementNode[]): number[][] {
  const groups = new Map<string, number[]>();
  nodes.forEach((node, i) => {
    if (node.triangles.length > 0) fileUnder(groups, `${styleOf(node)} ${node.extras.storey ?? ''}`, i);
  });
  return [...groups.values()].flatMap((ids) =>
    Array.from({ length: Math.ceil(ids.length / MOST) }, (_, k) => ids.slice(k * MOST, (k + 1) * MOST)),
  );
}

/** @param numbers of elements of one style and storey */
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
    ...{ style: styleOf(first), storey: first.extras.storey, positions, triangles, ids, ranges },
    lines: Uint32Array.from(lines),
  };
}
