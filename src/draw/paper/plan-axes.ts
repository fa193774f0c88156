/** Grid axes on a plan with their tags in circles, and the lines at which a plan goes on on another sheet. */
import type { Vec2 } from '../../model.js';
import type { PlanAxis } from '../../scene/storey-plan.js';
import { THICK, THIN } from './dimension.js';
import { drawText } from './label.js';
import { type Box, centred, clipped } from './layout.js';
import { INK, SECONDARY, SHEET } from './palette.js';
import type { PlanLabels } from './plan-labels.js';
import type { Edge, PlanSheet } from './plan-sheets.js';
import { element, line } from './svg.js';
import { ascent, fitted, lineHeight, type Style, textWidth } from './text.js';
import type { View } from './view.js';

/** Diameter of the circle round a tag. */
const CIRCLE = 6;
const TAG: Style = { lettering: 'normal' };
const WORDS: Style = { lettering: 'small', bold: true };

/** Long dashes and dots (ISO 128-2, line type 04.1); each ends in its tag at the edge of the sheet or where it ends. */
export function drawAxes(axes: readonly PlanAxis[], view: View, labels: PlanLabels): string {
  const { x, y, width, height } = view.window;
  const inner = CIRCLE / 2 + 0.8;
  const region: Box = { x: x + inner, y: y + inner, width: width - 2 * inner, height: height - 2 * inner };
  return axes
    .map(({ tag, ends }) => {
      const seen = clipped(view.at(ends[0]), view.at(ends[1]), region);
      if (!seen) return '';
      const at = freeAlong(seen, labels);
      return [
        element('path', {
          d: line(...seen),
          ...{ stroke: SECONDARY, 'stroke-width': THIN, 'stroke-dasharray': '6 0.8 0.4 0.8', fill: 'none' },
        }),
        at ? drawTag(tag, at) : '',
      ].join('');
    })
    .join('');
}

/** At an end, else as near to one as there is room: axes of two grids often end beside each other. */
function freeAlong([from, to]: readonly [Vec2, Vec2], labels: PlanLabels): Vec2 | undefined {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const at = (t: number): Vec2 => [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
  for (let along = 0; along <= length / 2; along += CIRCLE / 2)
    for (const t of length === 0 ? [0] : [along / length, 1 - along / length]) {
      const box = centred(at(t), CIRCLE, CIRCLE);
      if (labels.isFree(box)) {
        labels.take(box);
        return at(t);
      }
    }
  return undefined;
}

function drawTag(tag: string, [cx, cy]: Vec2): string {
  const text = fitted(tag, CIRCLE - 0.6, TAG);
  const baseline = cy - lineHeight(TAG) / 2 + ascent(TAG);
  return [
    element('circle', { cx, cy, r: CIRCLE / 2, fill: SHEET, stroke: SECONDARY, 'stroke-width': THIN }),
    drawText(text, [cx - textWidth(text, TAG) / 2, baseline], TAG),
  ].join('');
}

const EDGES: readonly Edge[] = ['left', 'right', 'top', 'bottom'];

export function drawMatchLines({ own, beyond }: PlanSheet, labels: PlanLabels): string {
  const [right, bottom] = [own.x + own.width, own.y + own.height];
  const ends: { readonly [E in Edge]: readonly [Vec2, Vec2] } = {
    left: [
      [own.x, own.y],
      [own.x, bottom],
    ],
    right: [
      [right, own.y],
      [right, bottom],
    ],
    top: [
      [own.x, own.y],
      [right, own.y],
    ],
    bottom: [
      [own.x, bottom],
      [right, bottom],
    ],
  };
  return EDGES.map((edge) => {
    const sheet = beyond[edge];
    return sheet === undefined ? '' : matchLine(ends[edge], `Continues on sheet ${sheet}`, labels);
  }).join('');
}

function matchLine([from, to]: readonly [Vec2, Vec2], words: string, labels: PlanLabels): string {
  const [width, height] = [textWidth(words, WORDS) + 1, lineHeight(WORDS)];
  const { region } = labels;
  const within = (at: number, least: number, room: number): number => Math.max(least, Math.min(least + room, at));
  const places = [0.5, 0.3, 0.7, 0.15, 0.85].map((t) => {
    const { x, y } = centred([from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t], width, height);
    const [roomX, roomY] = [region.width - width, region.height - height];
    return { x: within(x, region.x, roomX), y: within(y, region.y, roomY), width, height };
  });
  const box = labels.takeFirst(places);
  return [
    element('path', {
      d: line(from, to),
      ...{ stroke: INK, 'stroke-width': THICK, 'stroke-dasharray': '8 1.5 1 1.5', fill: 'none' },
    }),
    ...(box
      ? [element('rect', { ...box, fill: SHEET }), drawText(words, [box.x + 0.5, box.y + ascent(WORDS)], WORDS)]
      : []),
  ].join('');
}
