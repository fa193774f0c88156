import earcut from 'earcut';
import type { Polygon, Vec3 } from '../../src/model.js';

/** Triangles of outlines, each by itself. @returns nine numbers for each */
export const filled = (outlines: readonly Polygon[], at: (p: Polygon[number]) => Vec3): number[] =>
  outlines.flatMap((outline) => earcut(outline.flat()).flatMap((i) => [...at(outline[i]!)]));
