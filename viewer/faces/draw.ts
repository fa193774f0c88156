/** A row of a barrier as SVG. Lines after ISO 128: thick for what is cut, thin for what lies beside it, zigzags for breaks. */
import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import { MARK_GRID } from '../../src/draw/marks.js';
import type { Polygon, Vec2 } from '../../src/model.js';
import { OUTCOME_WORDS } from '../../src/words/values.js';
import { holdLineShape } from '../parts/hold-line.js';
import { markShape, OUTCOME_COLOUR } from '../parts/mark.js';
import type { BuildingBarrier } from '../state/building.js';
import { WORDS } from '../words.js';
import type { DrawnEdge } from './cut-out.js';
import type { PlacedDimension } from './gap-dimensions.js';
import { hatchId } from './hatches.js';
import { type HoldTick, stoppedTick } from './hold-ticks.js';
import type { PlacedMark, PlacedPenetration, PlacedRow } from './placed.js';
import { fittedTo } from './text.js';

export interface RowDrawing {
  readonly row: PlacedRow;
  readonly barrier: BuildingBarrier;
  readonly label: string;
  readonly selected: string | null;
  /** The one that is reached by Tab. */
  readonly tabStop: string | null;
  readonly dimensions: readonly PlacedDimension[];
  readonly ticks: (mark: PlacedMark) => readonly HoldTick[];
  /** The revision that it is new in; null: none, or nobody knows. */
  readonly newIn: (mark: PlacedMark) => string | null;
  readonly choose: (mark: PlacedMark) => void;
}

export const closed = (outlines: readonly Polygon[]): string =>
  outlines.map((outline) => `M${outline.map(([x, y]) => `${fine(x)} ${fine(y)}`).join('L')}Z`).join('');
const open = (points: Polygon): string => `M${points.map(([x, y]) => `${fine(x)} ${fine(y)}`).join('L')}`;
const lines = (edges: readonly DrawnEdge[]): string => edges.map(open).join('');
const fine = (value: number): number => Math.round(value * 100) / 100;

export function drawRow(d: RowDrawing): TemplateResult {
  const { row } = d;
  const faint = row.penetrations.filter(({ isSeen }) => !isSeen);
  const byId = new Map(row.penetrations.map((one) => [one.penetration.id, one]));
  return html`<svg class="row" role="group" aria-label=${d.label} width=${row.width} height=${row.height}>
    <path d=${closed(row.solid)} fill=${`url(#${hatchId(d.barrier.barrier)})`} fill-rule="evenodd"></path>
    <path d=${closed(row.openings)} fill="var(--sheet)"></path>
    <path d=${lines(row.openingEdges)} class="thin"></path>
    <path d=${closed(row.services)} class="service"></path>
    ${row.marks.map(({ leader }) => svg`<path d=${open(leader)} class="thin"></path>`)}
    <path d=${lines(row.edges)} class="edge"></path>
    <path d=${lines(row.levels)} class="level"></path>
    <path d=${row.breaks.map((edge) => open(zigzag(edge))).join('')} class="break"></path>
    ${faint.map((one) => svg`<g class="faint">${outlinesOf(one)}</g>`)}
    ${row.marks.map((mark) => drawPlace(mark, byId, d))}
    ${d.dimensions.map(drawDimension)}
  </svg>`;
}

/** A straight break line with one zigzag for every 40 px, at least one (ISO 128-2, line type 01.1). */
function zigzag([from, to]: DrawnEdge): Polygon {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < 16) return [from, to];
  const along: Vec2 = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const at = (by: number, off: number): Vec2 => [
    from[0] + along[0] * by - along[1] * off,
    from[1] + along[1] * by + along[0] * off,
  ];
  const count = Math.max(1, Math.floor(length / 80));
  const points: Vec2[] = [from];
  for (let i = 0; i < count; i++) {
    const middle = (length * (i + 0.5)) / count;
    points.push(at(middle - 4, 0), at(middle - 2, 4), at(middle + 2, -4), at(middle + 4, 0));
  }
  return [...points, to];
}

function drawPlace(mark: PlacedMark, placed: ReadonlyMap<string, PlacedPenetration>, d: RowDrawing): SVGTemplateResult {
  const members = mark.members.map(({ penetration }) => placed.get(penetration.id)!);
  const ids = members.map(({ penetration }) => penetration.id);
  const isSelected = d.selected !== null && ids.includes(d.selected);
  const { x, y, width, height } = placed.get(mark.penetration.id)!.box;
  const ticks = members.length === 1 ? d.ticks(mark) : [];
  const revision = d.newIn(mark);
  const chosen = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    if (members.length > 1) event.stopPropagation();
    d.choose(mark);
  };
  return svg`<g
    class=${isSelected ? 'place selected' : 'place'}
    role="button"
    tabindex=${d.tabStop !== null && ids.includes(d.tabStop) ? 0 : -1}
    data-id=${ids.join(' ')}
    aria-label=${nameOf(mark, ticks, revision)}
    aria-current=${isSelected ? 'true' : 'false'}
    @click=${() => d.choose(mark)}
    @keydown=${chosen}
  >
    <path class="reach" d=${open(mark.leader)}></path>
    <rect class="ring" x=${x - 5} y=${y - 5} width=${width + 10} height=${height + 10}></rect>
    ${members.map((one) => outlinesOf(one, one.penetration.id === d.selected))}
    <g transform=${`translate(${mark.at[0] - mark.size / 2} ${mark.at[1] - mark.size / 2}) scale(${mark.size / MARK_GRID})`}>
      <rect width=${MARK_GRID} height=${MARK_GRID} fill="var(--sheet)"></rect>
      ${markShape(mark.outcome)}
    </g>
    ${drawLabel(mark, ticks, revision)}
  </g>`;
}

function nameOf(
  { penetration: p, members, outcome }: PlacedMark,
  ticks: readonly HoldTick[],
  revision: string | null,
): string {
  if (members.length > 1)
    return `${WORDS.drawn.cluster(members.length)}, ${OUTCOME_WORDS[outcome]}: ${WORDS.drawn.opens}`;
  return [
    p.tag,
    OUTCOME_WORDS[outcome],
    WORDS.drawn.atRisk(stoppedTick(ticks)?.step.name ?? null),
    ...(p.duct.system ? [p.duct.system] : []),
    ...(p.outlines.duct.length === 0 ? [WORDS.drawn.shapeUnknown] : []),
    ...(revision === null ? [] : [WORDS.drawn.newIn(revision)]),
  ].join(', ');
}

function outlinesOf(
  { penetration, duct, opening, box, isSeen }: PlacedPenetration,
  isSelected = false,
): SVGTemplateResult {
  const { x, y } = box;
  // What has no shape stands for its place only.
  const d = duct.length > 0 ? closed(duct) : `M${x} ${y}h${box.width}v${box.height}h${-box.width}Z`;
  return svg`<path class="opening" d=${closed(opening)}></path>
    ${isSelected ? svg`<path d=${d} class="outer"></path><path d=${d} class="between"></path>` : nothing}
    <path
      class="duct"
      d=${d}
      stroke=${isSeen ? OUTCOME_COLOUR[penetration.outcome] : 'var(--rule)'}
      stroke-dasharray=${duct.length > 0 ? 'none' : '4 3'}
    ></path>`;
}

/** px. */
const TEXT = 12;
const LINES = [13, 28, 32, 57] as const;
const TICKS = 66;

function drawLabel(
  { penetration: p, members, outcome, label }: PlacedMark,
  ticks: readonly HoldTick[],
  revision: string | null,
): SVGTemplateResult {
  const { x, y, width, height } = label;
  const middle = x + width / 2;
  const line = (text: string, at: number, kind: string): SVGTemplateResult =>
    svg`<text x=${middle} y=${y + at} text-anchor="middle" class=${kind}>${fittedTo(text, width - 2, TEXT, kind === 'tag')}</text>`;
  const stop = stoppedTick(ticks);
  const isCluster = members.length > 1;
  return svg`<rect class="label" x=${x} y=${y} width=${width} height=${height}></rect>
    ${line(isCluster ? WORDS.drawn.cluster(members.length) : p.tag, LINES[0], 'tag')}
    ${line(OUTCOME_WORDS[outcome], LINES[1], 'word')}
    ${isCluster ? line(WORDS.drawn.opens, LINES[3], 'action') : nothing}
    ${
      ticks.length > 0
        ? svg`<g transform=${`translate(${middle - TICKS / 2} ${y + LINES[2]})`}>${holdLineShape(ticks, TICKS)}</g>`
        : nothing
    }
    ${stop ? line(stop.step.name, LINES[3], 'word') : nothing}
    ${revision === null ? nothing : drawRevision(revision, [x + width - 11, y + LINES[1]])}`;
}

/** A triangle with the letter of the revision, as drawing offices mark what is new. */
const drawRevision = (revision: string, [x, y]: Vec2): SVGTemplateResult =>
  svg`<path class="revision" d=${`M${x - 11} ${y + 2}h22L${x} ${y - 17}Z`}></path>
    <text x=${x} y=${y} text-anchor="middle" class="word">${[...revision].slice(0, 2).join('')}</text>`;

function drawDimension({ from, to, text, box }: PlacedDimension): SVGTemplateResult {
  const size = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [ax, ay] = [(to[0] - from[0]) / size, (to[1] - from[1]) / size];
  const stroke = ([x, y]: Vec2): string =>
    open([
      [x - 3 * (ax + ay), y - 3 * (ay - ax)],
      [x + 3 * (ax + ay), y + 3 * (ay - ax)],
    ]);
  const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return svg`<g class="dimension" aria-hidden="true">
    ${box ? svg`<path d=${open([middle, [box.x + box.width / 2, box.y + box.height / 2]])}></path>` : nothing}
    <path d=${`${open([
      [from[0] - 6 * ax, from[1] - 6 * ay],
      [to[0] + 6 * ax, to[1] + 6 * ay],
    ])}${stroke(from)}${stroke(to)}`}></path>
    ${
      box
        ? svg`<rect x=${box.x} y=${box.y} width=${box.width} height=${box.height}></rect>
            <text x=${box.x + box.width / 2} y=${box.y + 12} text-anchor="middle" class="tag">${text}</text>`
        : nothing
    }
  </g>`;
}
