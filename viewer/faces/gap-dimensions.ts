/** Gaps that failed at the selected penetration, with what was measured and what is allowed, as on a setting-out drawing. */
import { gapLines } from '../../src/draw/paper/gap-lines.js';
import { gapFailures, keyOf } from '../../src/draw/paper/gaps.js';
import { type Box, centred, Sheet } from '../../src/draw/paper/layout.js';
import type { Vec2 } from '../../src/model.js';
import type { ReportFinding } from '../../src/report/schema.js';
import { limitWords } from '../../src/words/values.js';
import { quantity } from '../format.js';
import type { Side } from '../state/state.js';
import { WORDS } from '../words.js';
import { pointIn, rowSeen } from './layout.js';
import type { PlacedRow } from './placed.js';
import type { FacePlan } from './plan.js';
import { widthOf } from './text.js';

export interface PlacedDimension {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly text: string;
  /** Of the text; null: there is no room for it, and the sheet has it. */
  readonly box: Box | null;
}

/** Of the text, px. */
const LINE = 16;
const OFF = 4;

/** @param id of the penetration; @param findings about it; @param locale of numbers */
export function gapDimensions(
  { rows }: FacePlan,
  index: number,
  side: Side,
  row: PlacedRow,
  id: string,
  findings: readonly ReportFinding[],
  locale?: string,
): PlacedDimension[] {
  const plan = rowSeen(rows, index, side);
  const one = plan.units.flatMap(({ members }) => members).find(({ penetration }) => penetration.id === id);
  if (!one) return [];
  const place = pointIn(plan);
  const seen = (q: Vec2): Vec2 => {
    const [x, y] = place(one.laid(q));
    return [side === 'A' ? x : row.width - x, y];
  };
  const lines = gapLines(one.penetration);
  const failures = gapFailures(one.penetration, lines, findings);
  const sheet = new Sheet({ x: 0, y: 0, width: row.width, height: row.drawingHeight });
  for (const { box } of row.penetrations) sheet.reserve(box);
  for (const { at, size } of row.marks) sheet.reserve(centred(at, size, size));
  return lines.flatMap((gap): PlacedDimension[] => {
    const failure = failures.get(keyOf(gap));
    if (!failure) return [];
    const [from, to] = [seen(gap.from), seen(gap.to)];
    const measured = quantity(gap.value, 'mm', 1, locale);
    const text = failure.limit ? WORDS.drawn.allowed(measured, limitWords(failure.limit, 'mm')) : measured;
    return [{ from, to, text, box: sheet.place(places(from, to, widthOf(text, 12, true) + 6)) ?? null }];
  });
}

/** Outside, in the direction of the gap. */
function places(from: Vec2, to: Vec2, width: number): Box[] {
  const size = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [dx, dy] = [(to[0] - from[0]) / size, (to[1] - from[1]) / size];
  const half = (Math.abs(dx) * width + Math.abs(dy) * LINE) / 2 + OFF;
  return [half, half + LINE].map((by) => centred([to[0] + dx * by, to[1] + dy * by], width, LINE));
}
