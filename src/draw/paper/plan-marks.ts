/** Penetrations on a plan: marks along their barriers, tags with leaders; what finds no place is listed by number. */
import type { Vec2 } from '../../model.js';
import type { PlanPenetration } from '../../scene/storey-plan.js';
import { brief } from '../../words/text.js';
import { MEDIUM, THICK, THIN } from './dimension.js';
import { drawText } from './label.js';
import { type Box, centred } from './layout.js';
import { mark, markAlong } from './mark.js';
import { INK, SHEET } from './palette.js';
import type { Leader, PlanLabels } from './plan-labels.js';
import { closedPath, element, line } from './svg.js';
import { ascent, descent, fontSize, type Lettering, lineHeight, type Style, textWidth } from './text.js';
import type { View } from './view.js';

/** Of a symbol on paper: the mark with its ground, round in walls, square in floors and roofs. */
export const SYMBOL = 4.4;
const MARK = 3.6;
/** Tags in one label; more are listed by number. */
const MOST_LINES = 5;

/** Penetrations that lie so near to each other on paper that they share a symbol, the most serious first. */
export interface Cluster {
  readonly at: Vec2;
  readonly members: readonly PlanPenetration[];
}

export interface Listed {
  readonly number: number;
  /** The number stands on the drawing. */
  readonly isShown: boolean;
  readonly members: readonly PlanPenetration[];
}

export interface Marks {
  readonly markup: string;
  readonly listed: readonly Listed[];
}

/** @param link where a tag leads to; undefined: nowhere */
export type Link = (penetration: PlanPenetration) => string | undefined;

const RANK = { failed: 0, cantTell: 1, passed: 2, untested: 3, inapplicable: 4 } as const;

export function clustersOf(penetrations: readonly PlanPenetration[], view: View): Cluster[] {
  const seriousFirst = [...penetrations].sort((a, b) => RANK[a.outcome] - RANK[b.outcome]);
  const clusters: { at: Vec2; members: PlanPenetration[] }[] = [];
  for (const penetration of seriousFirst) {
    const at = view.at(penetration.at);
    const near = clusters.find((c) => Math.hypot(c.at[0] - at[0], c.at[1] - at[1]) < SYMBOL + SYMBOL_CLEAR);
    if (near) near.members.push(penetration);
    else clusters.push({ at, members: [penetration] });
  }
  return clusters;
}
const SYMBOL_CLEAR = 0.2;

interface Labelled {
  readonly cluster: Cluster;
  readonly box: Box;
  readonly leader: Leader;
  readonly lines: readonly { readonly text: string; readonly penetration: PlanPenetration | null }[];
}

export function drawMarks(
  penetrations: readonly PlanPenetration[],
  view: View,
  labels: PlanLabels,
  lettering: Lettering,
  link: Link,
): Marks {
  const clusters = clustersOf(penetrations, view);
  const symbols = clusters.map((cluster) => {
    const box = centred(cluster.at, SYMBOL, SYMBOL);
    labels.take(box);
    return { cluster, box };
  });
  const style: Style = { lettering, bold: true };
  const labelled: Labelled[] = [];
  const listed: Listed[] = [];
  // Large labels first: small ones find a place between them.
  for (const { cluster, box: own } of [...symbols].sort(
    (a, b) => b.cluster.members.length - a.cluster.members.length,
  )) {
    const { members } = cluster;
    const tags = members.map((penetration) => ({ text: tagText(penetration), penetration }));
    const whole = members.length <= MOST_LINES ? labels.takeNear(own, sizeOf(tags, style)) : undefined;
    if (whole) {
      labelled.push({ cluster, ...whole, lines: tags });
      continue;
    }
    const number = listed.length + 1;
    const short = [{ text: `No ${number}`, penetration: null }];
    const place = labels.takeNear(own, sizeOf(short, style));
    listed.push({ number, members, isShown: place !== undefined });
    if (place) labelled.push({ cluster, ...place, lines: short });
  }
  const markup = [
    ...penetrations.map((p) => (p.outlines.length > 0 ? passage(p, view) : '')),
    ...labelled.map(({ leader }) =>
      element('path', { d: line(leader.from, leader.to), stroke: INK, 'stroke-width': THIN, fill: 'none' }),
    ),
    ...clusters.map((cluster) => symbol(cluster, view)),
    ...labelled.map((one) => drawTags(one, style, link)),
  ].join('');
  return { markup, listed };
}

export const tagText = ({ tag, isOverhead }: PlanPenetration): string =>
  `${brief(tag, 24)}${isOverhead ? ' overhead' : ''}`;

type Line = Labelled['lines'][number];
const PADDING = 0.4;
/** Beside a tag of several stands its own mark. */
const markRoom = (lines: readonly Line[], style: Style): number => (lines.length > 1 ? fontSize(style) + 0.3 : 0);

const sizeOf = (lines: readonly Line[], style: Style): { width: number; height: number } => ({
  width: Math.max(...lines.map(({ text }) => textWidth(text, style))) + markRoom(lines, style) + 2 * PADDING,
  height: lines.length * lineHeight(style),
});

function drawTags({ box, lines }: Labelled, style: Style, link: Link): string {
  const left = box.x + PADDING;
  const room = markRoom(lines, style);
  return [
    element('rect', { ...box, fill: SHEET, 'fill-opacity': 0.85 }),
    ...lines.map(({ text, penetration }, i) => {
      const top = box.y + i * lineHeight(style);
      const words = drawText(text, [left + room, top + ascent(style)], style);
      const href = penetration ? link(penetration) : undefined;
      const size = fontSize(style) * 0.9;
      const beside = room > 0 && penetration ? mark(penetration.outcome, [left, top + descent(style) / 2], size) : '';
      return beside + (href === undefined ? words : element('a', { href }, words));
    }),
  ].join('');
}

/** The most serious of its members; the places of the others as points. */
function symbol({ at, members }: Cluster, view: View): string {
  const [first, ...others] = members;
  if (!first) return '';
  const points = others.map((p) => {
    const [cx, cy] = view.at(p.at);
    return element('circle', { cx, cy, r: 0.5, fill: INK });
  });
  return [...points, drawSymbol(first, at, onPaper(first, view), others.length > 0 ? THICK : MEDIUM)].join('');
}

/** The mark runs along the barrier in walls, and stands upright in floors and roofs. */
export function drawSymbol(
  { outcome, kind }: Pick<PlanPenetration, 'outcome' | 'kind'>,
  at: Vec2,
  along: Vec2,
  stroke: number = MEDIUM,
): string {
  const ground = { fill: SHEET, stroke: INK, 'stroke-width': stroke };
  return [
    kind === 'wall'
      ? element('circle', { cx: at[0], cy: at[1], r: SYMBOL / 2, ...ground })
      : element('rect', { ...centred(at, SYMBOL, SYMBOL), ...ground }),
    markAlong(outcome, at, MARK, kind === 'wall' ? along : [0, 1]),
  ].join('');
}

function onPaper({ at, along }: PlanPenetration, view: View): Vec2 {
  const [from, to] = [view.at(at), view.at([at[0] + along[0] * 1000, at[1] + along[1] * 1000])];
  return [to[0] - from[0], to[1] - from[1]];
}

/** A duct through a floor: cut, so crossed; dashed where it is overhead. */
function passage({ outlines, isOverhead }: PlanPenetration, view: View): string {
  const seen = outlines.map(view.outline);
  const crosses = seen.flatMap((o) => (o.length === 4 ? [line(o[0]!, o[2]!), line(o[1]!, o[3]!)] : []));
  return element('path', {
    d: closedPath(seen) + crosses.join(''),
    ...{ fill: 'none', stroke: INK, 'stroke-width': MEDIUM, 'stroke-dasharray': isOverhead ? '1.5 0.8' : undefined },
  });
}
