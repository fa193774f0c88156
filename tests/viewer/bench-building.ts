/** A building of many elements as geometry.glb would have it, in memory: storeys of walls with a duct through each. Invented. */
import type { ElementExtras } from '../../src/scene/geometry-extras.js';
import type { DrawnNode, Geometry } from '../../viewer/model/geometry.js';

type Node = DrawnNode<ElementExtras>;

/** mm: between storeys, between walls, between ducts. */
const [STOREY, BAY, PITCH] = [3500, 4000, 1200];

/** @param elements at least so many: a wall and, along it, nine times a duct and its opening, storey by storey */
export function benchBuilding(elements: number, storeys = 10): Geometry {
  const walls = Math.ceil(elements / (storeys * 19));
  const across = Math.ceil(Math.sqrt(walls));
  const nodes: Node[] = [];
  for (let s = 0; s < storeys; s++)
    for (let w = 0; w < walls; w++) {
      const [x, y, z] = [(w % across) * 9 * PITCH * 1.1, Math.floor(w / across) * BAY, s * STOREY];
      const wall = ref('barrier', `W-${s}-${w}`, s);
      nodes.push(box(wall, [x, y, z], [9 * PITCH, 200, 3200]));
      for (let d = 0; d < 9; d++) {
        const at = x + 200 + d * PITCH;
        nodes.push(box(ref('duct', `D-${s}-${w}-${d}`, s), [at, y - 1500, z + 2400], [600, 3200, 400]));
        nodes.push(
          box({ ...ref('opening', `O-${s}-${w}-${d}`, s), host: wall }, [at - 30, y, z + 2370], [660, 200, 460]),
        );
      }
    }
  return {
    ...{ format: 'ratedrun-geometry', version: 1, origin: [0, 0, 0], createdAt: '2026-01-01T00:00:00Z' },
    ...{ elements: nodes, protection: [], findings: [], proposed: [], faces: new Map() },
  };
}

const ref = (kind: ElementExtras['kind'], globalId: string, storey: number): ElementExtras => ({
  ...{ kind, globalId, name: globalId, model: 'm1', storey: `S-${storey}`, system: null, host: null, face: null },
});

/** @param at least corner, mm */
export function box(extras: ElementExtras, at: readonly number[], size: readonly number[]): Node {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) =>
    [0, 1, 2].map((axis) => at[axis]! + (((i >> axis) & 1) === 1 ? size[axis]! : 0)),
  );
  return { name: extras.name, extras, positions: Float32Array.from(corners), triangles: Uint16Array.from(BOX) };
}

// biome-ignore format: two triangles for each side
const BOX = [0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5];
