/** The same row as it is seen from the other side. */
import type { Box } from '../../src/draw/paper/layout.js';
import type { Polygon, Vec2 } from '../../src/model.js';
import type { DrawnEdge } from './cut-out.js';
import type { PlacedRow } from './placed.js';

export function mirroredRow(row: PlacedRow): PlacedRow {
  const point = ([x, y]: Vec2): Vec2 => [row.width - x, y];
  const outline = (p: Polygon): Polygon => p.map(point);
  const edge = ([a, b]: DrawnEdge): DrawnEdge => [point(a), point(b)];
  const box = (b: Box): Box => ({ ...b, x: row.width - b.x - b.width });
  return {
    ...row,
    solid: row.solid.map(outline),
    edges: row.edges.map(edge),
    openings: row.openings.map(outline),
    openingEdges: row.openingEdges.map(edge),
    services: row.services.map(outline),
    breaks: row.breaks.map(edge),
    levels: row.levels.map(edge),
    penetrations: row.penetrations
      .map((p) => ({ ...p, duct: p.duct.map(outline), opening: p.opening.map(outline), box: box(p.box) }))
      .reverse(),
    marks: row.marks.map((m) => ({ ...m, at: point(m.at), label: box(m.label), leader: outline(m.leader) })).reverse(),
  };
}
