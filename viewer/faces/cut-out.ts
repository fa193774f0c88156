/** What of outlines lies in the stretches that a row keeps: areas to fill, and edges without those along the cuts. */
import { type Box, clipped } from '../../src/draw/paper/layout.js';
import { clip } from '../../src/geometry/polygon.js';
import type { Polygon, Vec2 } from '../../src/model.js';
import type { Axis } from './shorten.js';

export type DrawnEdge = readonly [Vec2, Vec2];

/** A part of the plane that is drawn as a whole. */
export interface Tile {
  /** mm, x and -y. */
  readonly from: Box;
  /** px of its corner. */
  readonly at: Vec2;
  readonly unit: number;
}

export const tilesOf = (x: Axis, y: Axis): Tile[] =>
  x.stretches.flatMap((across) =>
    y.stretches.map((down) => ({
      from: { x: across.from, y: down.from, width: across.to - across.from, height: down.to - down.from },
      at: [across.at, down.at] as const,
      unit: x.unit,
    })),
  );

export interface DrawnOutlines {
  readonly areas: readonly Polygon[];
  readonly edges: readonly DrawnEdge[];
}

/** @param outlines mm, y upwards */
export function drawnIn(outlines: readonly Polygon[], tiles: readonly Tile[]): DrawnOutlines {
  const turned = outlines.map((outline) => outline.map(([x, y]): Vec2 => [x, -y]));
  const areas: Polygon[] = [];
  const edges: DrawnEdge[] = [];
  for (const { from, at, unit } of tiles) {
    const place = ([x, y]: Vec2): Vec2 => [at[0] + (x - from.x) / unit, at[1] + (y - from.y) / unit];
    for (const outline of turned) {
      const area = within(outline, from);
      if (area.length > 2) areas.push(area.map(place));
      for (const [i, a] of outline.entries()) {
        const edge = clipped(a, outline[(i + 1) % outline.length]!, from);
        if (edge) edges.push([place(edge[0]), place(edge[1])]);
      }
    }
  }
  return { areas, edges };
}

const within = (outline: Polygon, { x, y, width, height }: Box): Polygon =>
  clip(clip(clip(clip(outline, -1, 0, -x), 1, 0, x + width), 0, -1, -y), 0, 1, y + height);
