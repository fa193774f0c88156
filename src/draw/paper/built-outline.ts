/** What a chosen detail builds round the duct at a face, seen square to the barrier: dashed, since it hides what is drawn. */
import { grownBy } from '../../geometry/areas.js';
import { bounds } from '../../geometry/polygon.js';
import type { Polygon } from '../../model.js';
import type { ReportPenetration } from '../../report/schema.js';
import { THIN } from './dimension.js';
import { INK } from './palette.js';
import { cutOf } from './section/cut.js';
import { sheetInset, sizesOf } from './section/sizes.js';
import { closedPath, element } from './svg.js';
import type { View } from './view.js';

export function drawBuiltOutlines(p: ReportPenetration, view: View): string {
  return builtOutlines(p)
    .map(({ part, outlines }) =>
      element('path', {
        ...{ d: closedPath(outlines.map(view.outline)), 'data-part': part, fill: 'none' },
        ...{ stroke: INK, 'stroke-width': THIN, 'stroke-dasharray': '1.6 0.8' },
      }),
    )
    .join('');
}

interface BuiltOutline {
  readonly part: 'angle' | 'boardCollar' | 'layers';
  readonly outlines: readonly Polygon[];
}

/** The outer edges of angles on all sides, of the board collar, and of all layers. */
function builtOutlines(p: ReportPenetration): BuiltOutline[] {
  const { chosen } = p.treatment;
  if (!chosen) return [];
  const { angle, collarWidth, base, outside } = sizesOf(chosen, cutOf(p), sheetInset(p));
  const isAllRound = chosen.parts.some((part) => part.part === 'angle' && part.sides === 'all');
  const grown = (part: BuiltOutline['part'], by: number | undefined): BuiltOutline[] => {
    const outlines = by === undefined || by <= 0 ? [] : grownBy(p.outlines.duct, by);
    return outlines.length > 0 ? [{ part, outlines }] : [];
  };
  const collar = grown('boardCollar', collarWidth === undefined ? undefined : base + collarWidth);
  return [
    ...grown('angle', angle && isAllRound ? base + angle.leg : undefined),
    // A collar is square outside, round a round duct too.
    ...collar.map((one) => (p.duct.shape === 'circular' ? { ...one, outlines: one.outlines.map(squared) } : one)),
    ...grown('layers', outside),
  ];
}

function squared(outline: Polygon): Polygon {
  const { min, max } = bounds([outline]);
  return [min, [max[0], min[1]], max, [min[0], max[1]]];
}
