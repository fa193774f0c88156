/** Ratings printed beside the walls of a plan, names in its compartments. */
import { pointSegmentDistance } from '../../geometry/polygon.js';
import type { Vec2 } from '../../model.js';
import type { PlanWall, StoreyPlan } from '../../scene/storey-plan.js';
import { brief } from '../../words/text.js';
import { drawText } from './label.js';
import { type Box, centred, clipped, middleOf } from './layout.js';
import { SECONDARY, SHEET } from './palette.js';
import { ratingText, wallHatch } from './plan-content.js';
import type { PlanLabels } from './plan-labels.js';
import { element } from './svg.js';
import { ascent, lineHeight, type Style, textWidth } from './text.js';
import type { View } from './view.js';

const STYLE: Style = { lettering: 'small' };
/** Walls shorter than this on paper are told by their hatch alone. */
const LEAST = 6;
/** So near to the same text it is not said again. */
const SAID = 25;
const OFF = 0.5;

export function drawRatings(walls: readonly PlanWall[], view: View, own: Box, labels: PlanLabels): string {
  const said: { readonly text: string; readonly at: Vec2 }[] = [];
  return walls
    .filter((wall) => wallHatch(wall) !== 'none')
    .map((wall) => {
      const text = ratingText(wall.rating);
      const edge = longestEdge(wall, view, own);
      if (text === '' || !edge) return '';
      if (said.some((one) => one.text === text && pointSegmentDistance(one.at, ...edge) < SAID)) return '';
      const box = labels.takeFirst(places(edge, text));
      if (!box) return '';
      said.push({ text, at: middleOf(box) });
      return element('rect', { ...box, fill: SHEET, 'fill-opacity': 0.85 }) + words(text, box);
    })
    .join('');
}

const words = (text: string, box: Box): string => drawText(text, [box.x + 0.3, box.y + ascent(STYLE)], STYLE);

/** Of its outlines, within the sheet's own part. */
function longestEdge({ outlines }: PlanWall, view: View, own: Box): readonly [Vec2, Vec2] | undefined {
  let best: readonly [Vec2, Vec2] | undefined;
  let most = LEAST;
  for (const outline of outlines.map(view.outline))
    for (const [i, a] of outline.entries()) {
      const edge = clipped(a, outline[(i + 1) % outline.length]!, own);
      const length = edge ? Math.hypot(edge[1][0] - edge[0][0], edge[1][1] - edge[0][1]) : 0;
      if (length > most) [best, most] = [edge, length];
    }
  return best;
}

/** Beside the edge, on the far side of the wall from it last. */
function places([from, to]: readonly [Vec2, Vec2], text: string): Box[] {
  const [width, height] = [textWidth(text, STYLE) + 0.6, lineHeight(STYLE)];
  const size = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const square: Vec2 = [-(to[1] - from[1]) / size, (to[0] - from[0]) / size];
  const half = (Math.abs(square[0]) * width + Math.abs(square[1]) * height) / 2;
  return [1, -1].flatMap((side) =>
    [0.5, 0.35, 0.65, 0.2, 0.8].flatMap((t) =>
      (side === 1 ? [OFF, 2, 4] : [3, 5]).map((off) => {
        const by = side * (half + off);
        return centred(
          [from[0] + (to[0] - from[0]) * t + square[0] * by, from[1] + (to[1] - from[1]) * t + square[1] * by],
          width,
          height,
        );
      }),
    ),
  );
}

/** In the middle of each compartment or up to two lines beside it; a name that would lie on a wall is left out. */
export function drawNames({ compartments }: StoreyPlan, view: View, labels: PlanLabels): string {
  const height = lineHeight(STYLE);
  return compartments
    .map(({ name, at }) => {
      const text = brief(name, 30);
      const [x, y] = view.at(at);
      const width = textWidth(text, STYLE) + 0.6;
      const places = [0, 1, -1, 2, -2].map((i) => centred([x, y + i * height], width, height));
      const box = labels.takeFirst(places.filter((place) => labels.covered(place) === 0));
      return box ? drawText(text, [box.x + 0.3, box.y + ascent(STYLE)], { ...STYLE, colour: SECONDARY }) : '';
    })
    .join('');
}
