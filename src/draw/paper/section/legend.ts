/** Numbers at the parts and the same numbers before their words. */
import { compareTexts } from '../../../collect.js';
import type { Vec2 } from '../../../model.js';
import { counted } from '../../../words/text.js';
import { MEDIUM, THIN } from '../dimension.js';
import { drawText } from '../label.js';
import { type Box, centred } from '../layout.js';
import { INK, SECONDARY, SHEET } from '../palette.js';
import { element, line } from '../svg.js';
import { ascent, fitted, lineHeight, type Style, textWidth, wrapped } from '../text.js';

export interface Entry {
  /** In its circle: a figure for work, a letter for what is there. */
  readonly mark: string;
  readonly text: string;
  /** On paper, where leaders end; none where it is not seen. */
  readonly targets: readonly Vec2[];
}

const STYLE: Style = { lettering: 'small' };
const RADIUS = 1.9;
const SPACING = 2 * RADIUS + 0.9;
const INDENT = 2 * RADIUS + 1.2;
const MOST_LINES = 6;
const ENTRY_GAP = 0.5;

/** A circle with its leader: from its edge to what it speaks of. */
export interface PlacedNumber {
  readonly mark: string;
  readonly centre: Vec2;
  readonly edge: Vec2;
  readonly target: Vec2;
}

/**
 * Circles in a row along one edge of the drawing, in the order of what they point to, so that leaders do not cross.
 *
 * @param band where the circles stand: level for a row from left to right, upright for one from top to bottom
 */
export function placeNumbers(entries: readonly Entry[], band: Box): PlacedNumber[] {
  const isLevel = band.width > band.height;
  const axis = isLevel ? 0 : 1;
  const all = entries.flatMap(({ mark, targets }) => targets.map((target) => ({ mark, target })));
  const [from, to] = isLevel ? [band.x, band.x + band.width] : [band.y, band.y + band.height];
  const most = Math.floor((to - from) / SPACING);
  // Of more than there is room for the first are shown; the legend has them all, or says that it has not.
  const inOrder = all.slice(0, most).sort((a, b) => a.target[axis] - b.target[axis] || compareTexts(a.mark, b.mark));
  const places = spread(
    inOrder.map(({ target }) => target[axis]),
    from + RADIUS,
    to - RADIUS,
  );
  const middle = isLevel ? band.y + band.height / 2 : band.x + band.width / 2;
  return inOrder.map(({ mark, target }, i): PlacedNumber => {
    const centre: Vec2 = isLevel ? [places[i]!, middle] : [middle, places[i]!];
    const away = Math.hypot(target[0] - centre[0], target[1] - centre[1]) || 1;
    const share = RADIUS / away;
    const edge: Vec2 = [centre[0] + (target[0] - centre[0]) * share, centre[1] + (target[1] - centre[1]) * share];
    return { mark, centre, edge, target };
  });
}

/** Small boxes along the leaders, to be kept free of text. */
export function leaderBoxes(numbers: readonly PlacedNumber[]): Box[] {
  return numbers.flatMap(({ edge, target }) => {
    const steps = Math.ceil(Math.hypot(target[0] - edge[0], target[1] - edge[1]) / LEADER_STEP);
    return Array.from({ length: steps + 1 }, (_, i): Box => {
      const share = i / Math.max(1, steps);
      const at: Vec2 = [edge[0] + (target[0] - edge[0]) * share, edge[1] + (target[1] - edge[1]) * share];
      return centred(at, LEADER_STEP, LEADER_STEP);
    });
  });
}
const LEADER_STEP = 0.8;

export function drawNumbers(numbers: readonly PlacedNumber[]): string {
  const leader = ({ edge, target }: PlacedNumber, stroke: string, width: number): string =>
    element('path', { d: line(edge, target), stroke, 'stroke-width': width, fill: 'none' });
  return [
    ...numbers.map((one) => leader(one, SHEET, 0.7)),
    ...numbers.map((one) => leader(one, INK, THIN)),
    ...numbers.map(({ target: [cx, cy] }) =>
      element('circle', { cx, cy, r: 0.5, fill: INK, stroke: SHEET, 'stroke-width': THIN }),
    ),
    ...numbers.map(({ mark, centre }) => circled(mark, centre)),
  ].join('');
}

/** As near to the wished places as the spacing lets them be. */
function spread(wishes: readonly number[], from: number, to: number): number[] {
  const places: number[] = [];
  for (const wish of wishes) places.push(Math.max(wish, from, (places.at(-1) ?? -Infinity) + SPACING));
  for (let i = places.length - 1; i >= 0; i--) {
    const most = i === places.length - 1 ? to : places[i + 1]! - SPACING;
    places[i] = Math.min(places[i]!, most);
  }
  return places;
}

function circled(mark: string, [x, y]: Vec2): string {
  const baseline = y + ascent(STYLE) - lineHeight(STYLE) / 2;
  return [
    element('circle', { cx: x, cy: y, r: RADIUS, fill: SHEET, stroke: INK, 'stroke-width': MEDIUM }),
    drawText(mark, [x - textWidth(mark, STYLE) / 2, baseline], STYLE),
  ].join('');
}

/** One after the other in columns, lines going on in the next one; the last line says how many entries there are more. */
export function drawLegend(entries: readonly Entry[], columns: readonly Box[]): string {
  const high = lineHeight(STYLE);
  const parts: string[] = [];
  let column = 0;
  let top = columns[0]!.y;
  /** Whether so much still fits, here or in the next column, and goes there. */
  const isRoom = (height: number): boolean => {
    for (; column < columns.length; column++, top = columns[column]?.y ?? 0)
      if (top + height <= columns[column]!.y + columns[column]!.height) return true;
    return false;
  };
  const leftOut = (i: number): string => {
    const { x, y, width, height } = columns.at(-1)!;
    const text = fitted(`and ${entries.length - i} more in the report`, width - INDENT, STYLE);
    return drawText(text, [x + INDENT, y + height - high + ascent(STYLE)], { ...STYLE, colour: SECONDARY });
  };
  const lasts = columns.map((box, i) => (i === columns.length - 1 ? box.y + box.height - high : Infinity));
  for (const [i, { mark, text }] of entries.entries()) {
    const lines = wrapped(text, columns[0]!.width - INDENT, MOST_LINES, STYLE);
    for (const [n, words] of lines.entries()) {
      const isEnd = i === entries.length - 1 && n === lines.length - 1;
      if (!isRoom(n === 0 ? 2 * RADIUS : high) || (!isEnd && top + high > lasts[column]!))
        return [...parts, leftOut(n === 0 ? i : i + 1)].join('');
      const { x } = columns[column]!;
      if (n === 0) parts.push(circled(mark, [x + RADIUS, top + RADIUS]));
      const drop = n === 0 ? RADIUS - high / 2 : 0;
      parts.push(drawText(words, [x + INDENT, top + drop + ascent(STYLE)], STYLE));
      top += high + 2 * Math.max(0, drop);
    }
    top += ENTRY_GAP;
  }
  return parts.join('');
}

/** Sentences one below the other, as many as there is room for. */
export function drawSentences(texts: readonly string[], column: Box): string {
  const high = lineHeight(STYLE);
  const parts: string[] = [];
  let top = column.y;
  for (const [i, text] of texts.entries()) {
    const lines = wrapped(text, column.width, MOST_LINES, STYLE);
    const kept = i < texts.length - 1 ? high : 0;
    if (top + lines.length * high > column.y + column.height - kept) {
      const more = `and ${counted(texts.length - i, 'more note')}`;
      return [...parts, drawText(more, [column.x, top + ascent(STYLE)], { ...STYLE, colour: SECONDARY })].join('');
    }
    lines.forEach((words, n) => {
      parts.push(drawText(words, [column.x, top + n * high + ascent(STYLE)], STYLE));
    });
    top += lines.length * high + 0.8;
  }
  return parts.join('');
}
