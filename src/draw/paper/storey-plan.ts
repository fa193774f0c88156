/** A storey's plan on sheets of A3 or A4 in landscape, with every penetration that belongs to it marked and tagged. */
import type { StoreyPlan } from '../../scene/storey-plan.js';
import { MEDIUM } from './dimension.js';
import { drawingOf } from './drawing.js';
import { HATCHES, planHatch } from './hatch.js';
import { type Box, CLEAR } from './layout.js';
import { INK } from './palette.js';
import { drawAxes, drawMatchLines } from './plan-axes.js';
import {
  drawLegend,
  drawList,
  drawPlanTitle,
  heightWords,
  listLines,
  type PlanStamp,
  planName,
} from './plan-column.js';
import { drawPlan, wallsUnder } from './plan-content.js';
import { PlanLabels } from './plan-labels.js';
import { drawMarks, type Link } from './plan-marks.js';
import { drawNames, drawRatings } from './plan-ratings.js';
import { type PlanSheet, planSheets } from './plan-sheets.js';
import { drawScaleBar } from './scale-bar.js';
import { element } from './svg.js';

export interface StoreyPlanOptions extends PlanStamp {
  /** Tells this drawing's patterns from those of other drawings on the same page: letters and digits. */
  readonly id: string;
  readonly sheet?: keyof typeof PLAN_SHEETS;
  /** CSS with the typeface, where the drawing has to carry its own; see `fontFaces`. */
  readonly style?: string;
  readonly link?: Link;
  /** Compartments by name, where there is room. */
  readonly compartmentNames?: boolean;
}

/** What margins of 15 mm leave of a sheet in landscape, and on A4 the head of a page of the report. */
export const PLAN_SHEETS = {
  A3: { width: 390, height: 267, column: 70, lettering: 'normal' },
  A4: { width: 267, height: 160, column: 56, lettering: 'small' },
} as const;

/** Under the drawing stands the scale bar; between it and the column a gap. */
const FOOT = 9;
const GAP = 3;
/** Round what is shown there is room for the tags of axes and what goes on on the next sheet. */
const MARGIN = 9;

/**
 * A drawing for each sheet. A storey that is too large at 1:200 is cut along match lines; one that would take more than
 * a dozen sheets is drawn smaller. Tags that find no place are listed by numbers, on a sheet of their own if need be.
 */
export function drawStoreyPlan(plan: StoreyPlan, options: StoreyPlanOptions): string[] {
  const { width, height, column: columnWidth, lettering } = PLAN_SHEETS[options.sheet ?? 'A4'];
  const window: Box = { x: 0.5, y: 0.5, width: width - columnWidth - GAP - 1, height: height - FOOT - 1 };
  const inside: Box = {
    ...{ x: window.x + MARGIN, y: window.y + MARGIN },
    ...{ width: window.width - 2 * MARGIN, height: window.height - 2 * MARGIN },
  };
  const column: Box = { x: width - columnWidth - 0.5, y: 0.5, width: columnWidth, height: height - 1 };
  return planSheets(plan, window, inside).flatMap((sheet) => {
    const id = `${options.id}s${sheet.number}`;
    const { view } = sheet;
    const labels = new PlanLabels(inset(window), wallsUnder(plan, view));
    const axes = drawAxes(plan.axes, view, labels);
    const marks = drawMarks(sheet.penetrations, view, labels, lettering, options.link ?? (() => undefined));
    const matchLines = drawMatchLines(sheet, labels);
    const ratings = drawRatings(plan.walls, view, sheet.own, labels);
    const names = options.compartmentNames ? drawNames(plan, view, labels) : '';
    const title = drawPlanTitle(plan, sheet, options, options.sheet ?? 'A4', column);
    const legend = drawLegend(plan, sheet, id, column);
    const top = column.y + legend.height + GAP;
    const free: Box = { ...column, y: top, height: column.height - legend.height - title.height - 2 * GAP };
    const list = drawList(listLines(plan, marks.listed), free);
    const scaleBar: Box = { x: 1, y: window.height + 2, width: window.width, height: FOOT };
    const drawing = svg(plan, sheet, options, [
      element(
        'defs',
        {},
        element('clipPath', { id: `window-${id}` }, element('rect', { ...window })),
        ...HATCHES.map((hatch) => planHatch(`${hatch}-${id}`, hatch)),
      ),
      element(
        'g',
        { 'clip-path': `url(#window-${id})` },
        drawPlan(plan, view, id),
        axes,
        matchLines,
        names,
        ratings,
        marks.markup,
      ),
      element('rect', { ...window, fill: 'none', stroke: INK, 'stroke-width': MEDIUM }),
      drawScaleBar(view.scale, scaleBar, `Cut at ${heightWords(plan.cutAt)}, seen from above`),
      legend.markup,
      list.markup,
      title.markup,
    ]);
    return [drawing, ...listSheets(plan, sheet, options, list.rest, window, title.markup)];
  });
}

const inset = ({ x, y, width, height }: Box): Box => ({
  ...{ x: x + CLEAR, y: y + CLEAR, width: width - 2 * CLEAR, height: height - 2 * CLEAR },
});

/** Tags that the column had no room for. */
function listSheets(
  plan: StoreyPlan,
  sheet: PlanSheet,
  options: StoreyPlanOptions,
  lines: Parameters<typeof drawList>[0],
  window: Box,
  title: string,
): string[] {
  const sheets: string[] = [];
  for (let rest = lines; rest.length > 0; ) {
    const drawn = drawList(rest, {
      x: window.x + 2,
      y: window.y + 2,
      width: window.width - 4,
      height: window.height - 4,
    });
    sheets.push(svg(plan, sheet, options, [drawn.markup, title]));
    rest = drawn.rest;
  }
  return sheets;
}

function svg(plan: StoreyPlan, sheet: PlanSheet, options: StoreyPlanOptions, content: readonly string[]): string {
  const { width, height } = PLAN_SHEETS[options.sheet ?? 'A4'];
  return drawingOf(
    { width, height, title: `Plan of ${planName(plan)}, sheet ${sheet.number} of ${sheet.of}`, style: options.style },
    ...content,
  );
}
