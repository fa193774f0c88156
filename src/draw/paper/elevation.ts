import { isFailedOrOpen } from '../../attention.js';
import type { Polygon } from '../../model.js';
import type { ReportFinding, ReportPenetration } from '../../report/schema.js';
import { brief } from '../../words/text.js';
import { OUTCOME_WORDS } from '../../words/values.js';
import { drawBarrier, drawDuct, ductLabel, overallSizes } from './barrier-cut.js';
import { drawBuiltOutlines } from './built-outline.js';
import { MEDIUM } from './dimension.js';
import { drawingOf } from './drawing.js';
import { type GapLine, gapLines } from './gap-lines.js';
import { drawGap, failedPattern, failedRegion, type GapKey, gapFailures, gapLabel, keyOf } from './gaps.js';
import { hatchPattern } from './hatch.js';
import { type Box, Sheet } from './layout.js';
import { drawNeighbour, type Neighbour, neighbourLabels, neighboursOf } from './neighbours.js';
import { INK } from './palette.js';
import { drawScaleBar } from './scale-bar.js';
import { element } from './svg.js';
import { drawNotes, drawTitleBlock, type Note } from './title-block.js';
import { viewOf } from './view.js';

export interface ElevationInput {
  readonly penetration: ReportPenetration;
  /** What was found about it, most serious first. */
  readonly findings: readonly ReportFinding[];
  /** Other penetrations of the report, by their id. */
  readonly others: ReadonlyMap<string, ReportPenetration>;
  /** Tells this drawing's patterns from those of other drawings on the same page: letters and digits. */
  readonly id: string;
  readonly revision?: string | null;
  /** CSS with the typeface, where the drawing has to carry its own; see `fontFaces`. */
  readonly style?: string;
  /** Without notes and title block, where what stands round the drawing says the same: {@link BARE_WIDTH} wide. */
  readonly isBare?: boolean;
}

export const SHEET_WIDTH = 180;
export const SHEET_HEIGHT = 112;
/** Of the drawing alone, up to the column beside it. */
export const BARE_WIDTH = 126.5;
const WINDOW: Box = { x: 0.5, y: 0.5, width: 125, height: 102 };
/** Room for the duct and its opening; outside stand dimensions. */
const INSIDE: Box = { x: 24, y: 14, width: 77.2, height: 64 };
const COLUMN: Box = { x: 128.5, y: 0.5, width: 51, height: 111 };
const NOTES_GAP = 3;

export function drawElevation(input: ElevationInput): string {
  const { penetration: p, findings, id } = input;
  const neighbours = neighboursOf(p, input.others);
  const near = neighbours.flatMap(({ pair }) => (pair ? [[...pair]] : []));
  const lines = gapLines(p).filter((gap) => !showsNeighbour(gap, p, neighbours));
  const view = viewOf([...p.outlines.duct, ...p.outlines.opening, ...near, ...endsOf(lines), [[0, 0]]], WINDOW, INSIDE);
  const sheet = new Sheet({ x: 1, y: 1, width: WINDOW.width - 1, height: WINDOW.height - 1 });
  const failures = gapFailures(p, lines, findings);
  const width = input.isBare ? BARE_WIDTH : SHEET_WIDTH;
  const title = drawTitleBlock({ penetration: p, scale: view.scale, revision: input.revision ?? null }, COLUMN);
  const notes = notesOf(findings, failures);
  // What failed is placed first, so that it stands where it is looked for.
  const inOrder = [...lines].sort((a, b) => Number(failures.has(keyOf(b))) - Number(failures.has(keyOf(a))));
  const content = [
    ...inOrder.map((gap) => (gap.edge && failures.has(keyOf(gap)) ? failedRegion(gap, view, id) : '')),
    overallSizes(p, view, sheet, new Set(failures.keys())),
    ...inOrder.map((gap) => drawGap(gap, gapLabel(gap, failures.get(keyOf(gap)), input), view, sheet)),
    ductLabel(p, view, sheet),
    ...neighbours.map((n) => neighbourLabels(n, findings, view, sheet)),
  ];
  return drawingOf(
    {
      width,
      height: SHEET_HEIGHT,
      title: `Elevation of ${brief(p.tag, 40)}: ${OUTCOME_WORDS[p.outcome]}`,
      style: input.style,
    },
    element(
      'defs',
      {},
      element('clipPath', { id: `window-${id}` }, element('rect', { ...WINDOW })),
      hatchPattern(`barrier-${id}`, p.barrier.construction, p.barrier.rating),
      failedPattern(id),
    ),
    element(
      'g',
      { 'clip-path': `url(#window-${id})` },
      drawBarrier(p, view, id),
      ...neighbours.map(({ outlines }) => drawNeighbour(outlines, view)),
      drawBuiltOutlines(p, view),
      drawDuct(p, view),
      ...content,
    ),
    element('rect', { ...WINDOW, fill: 'none', stroke: INK, 'stroke-width': MEDIUM }),
    drawScaleBar(
      view.scale,
      { x: 1, y: WINDOW.height + 2, width: WINDOW.width, height: SHEET_HEIGHT - WINDOW.height - 2 },
      'Seen along the normal of the barrier',
      input.isBare,
    ),
    ...(input.isBare
      ? []
      : [drawNotes(notes, { ...COLUMN, height: COLUMN.height - title.height - NOTES_GAP }), title.markup]),
  );
}

/** What the drawing does not show by itself comes first. */
function notesOf(findings: readonly ReportFinding[], failures: ReadonlyMap<GapKey, ReportFinding>): Note[] {
  const shown = new Set(failures.values());
  return findings
    .filter(isFailedOrOpen)
    .sort((a, b) => Number(shown.has(a)) - Number(shown.has(b)))
    .map(({ outcome, message }) => ({ outcome, text: message }));
}

/** A gap to a neighbour is its distance, which is dimensioned with the neighbour. */
function showsNeighbour({ side }: GapLine, p: ReportPenetration, neighbours: readonly Neighbour[]): boolean {
  const facing = side && p.gaps.facing[side];
  return neighbours.some(({ penetration, pair }) => pair !== undefined && penetration.id === facing);
}

const endsOf = (lines: readonly GapLine[]): Polygon[] => lines.map(({ from, to }) => [from, to]);
