/** What geometry.glb draws, as the scene that pictures of topics are drawn from. */
import { boxOf, type Scene, type SceneElement } from '../../src/scene/scene.js';
import type { Geometry } from '../model/geometry.js';

export const sceneOfGeometry = ({ origin, elements }: Geometry): Scene => ({
  origin,
  elements: elements.flatMap(({ extras: { kind, model, globalId, host }, positions, triangles }): SceneElement[] => {
    // What only stands around is in no picture of a topic.
    if (kind === 'context' || positions.length === 0) return [];
    const shape = { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
    return [{ kind, model, globalId, host, ...shape, box: boxOf(shape) }];
  }),
});
