/** What geometry.glb draws, as the scene that pictures of topics are drawn from. */
import { boxOf, type Scene, type SceneElement } from '../../src/scene/scene.js';
import type { Geometry } from '../model/geometry.js';

export const sceneOfGeometry = ({ origin, elements }: Geometry): Scene => ({
  origin,
  elements: elements
    .filter(({ positions }) => positions.length > 0)
    .map(({ extras: { kind, model, globalId, host }, positions, triangles }): SceneElement => {
      const shape = { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
      return { kind, model, globalId, host, ...shape, box: boxOf(shape) };
    }),
});
