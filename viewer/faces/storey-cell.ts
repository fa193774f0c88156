/** One storey of the building section: its words and where they stand, px from its own corner, and how it is drawn. */
import { nothing, type SVGTemplateResult, svg } from 'lit';
import { MARK_GRID } from '../../src/draw/marks.js';
import type { Outcome } from '../../src/model.js';
import type { OutcomeCounts } from '../../src/report/schema.js';
import { oneLine } from '../../src/words/text.js';
import { level } from '../format.js';
import { markShape } from '../parts/mark.js';
import { worstOf } from '../state/building.js';
import { WORDS } from '../words.js';
import { COUNT_LINE, COUNTED, FOOT, hasAny, NAME_LINE, type PlacedStorey, type SectionShaft } from './section.js';
import { fittedTo, widthOf } from './text.js';

export const CELL_WIDTH = 136;
const LEFT = 14;
const SHAFT = 8;
const MARK = 16;
const TEXT = 12;

interface CellCount {
  readonly outcome: Outcome;
  readonly text: string;
  readonly y: number;
}

export interface StoreyCell {
  readonly height: number;
  readonly name: string;
  /** Null: there is no room for it. */
  readonly level: { readonly text: string; readonly y: number; readonly isRight: boolean } | null;
  readonly counts: readonly CellCount[];
  readonly shafts: readonly { readonly name: string; readonly x: number }[];
  /** For readers: what is written first, in the same words, then the rest. */
  readonly label: string;
}

/** @param isFull a line for each outcome, and one for the level */
export function cellOf(storey: PlacedStorey, shafts: readonly SectionShaft[], isFull: boolean): StoreyCell {
  const { walls, slab, height } = storey;
  const { name, elevation } = storey.storey;
  const room = CELL_WIDTH - LEFT - 4 - shafts.length * SHAFT;
  const shown = fittedTo(oneLine(name) || WORDS.section.noStorey, room, TEXT, true);
  const levelText = elevation === null ? '' : level(elevation);
  const hasRoom = widthOf(shown, TEXT, true) + 6 + widthOf(levelText, TEXT) <= room;
  const foot = height - FOOT;
  const shownLevel =
    levelText === '' || !(isFull || hasRoom) ? null : { text: levelText, y: isFull ? foot + 3 : 14, isRight: !isFull };
  const worst = worstOf(walls);
  const inWalls: CellCount[] = isFull
    ? COUNTED.filter((outcome) => walls[outcome] > 0).map((outcome, i) => ({
        ...{ outcome, y: NAME_LINE + i * COUNT_LINE },
        text: WORDS.section.ofAll(walls[outcome], outcome, walls[outcome]),
      }))
    : worst
      ? [{ outcome: worst, text: worstWords(walls, worst), y: NAME_LINE }]
      : [];
  // What passes a floor stands on its line.
  const worstInSlab = worstOf(slab);
  const inSlab: CellCount[] = worstInSlab
    ? [{ outcome: worstInSlab, text: worstWords(slab, worstInSlab), y: foot - MARK - (isFull ? NAME_LINE - 2 : 0) }]
    : [];
  const counts = [...inWalls, ...inSlab];
  const placed = storey.shafts.map((i) => ({
    name: WORDS.section.shaft(shafts[i]!.names.map(oneLine).join(', ')),
    x: CELL_WIDTH - 4 - (shafts.length - i) * SHAFT,
  }));
  return {
    ...{ height, name: shown, level: shownLevel, counts, shafts: placed },
    label: [
      [shown, ...(shownLevel ? [shownLevel.text] : []), ...counts.map(({ text }) => text)].join(' '),
      ...(counts.length === 0 ? [WORDS.section.nothing] : []),
      ...(isFull || !hasAny(walls) ? [] : [WORDS.counts(walls)]),
      ...(hasAny(slab) ? [WORDS.section.inFloor(WORDS.counts(slab))] : []),
      ...placed.map((shaft) => shaft.name),
    ].join('; '),
  };
}

const worstWords = (counts: OutcomeCounts, worst: Outcome): string =>
  WORDS.section.ofAll(
    counts[worst],
    worst,
    COUNTED.reduce((total, outcome) => total + counts[outcome], 0),
  );

/** @param isHere the selected penetration is in this storey */
export function drawCell(cell: StoreyCell, isChosen: boolean, isHere: boolean): SVGTemplateResult {
  const { height, shafts, counts, name } = cell;
  return svg`<rect class="ground" width=${CELL_WIDTH} height=${height}></rect>
    <path d=${`M0 ${height}h${CELL_WIDTH}`} stroke="var(--ink)" stroke-width="3"></path>
    ${shafts.map((shaft) => drawShaft(shaft.name, shaft.x, height))}
    ${isChosen ? svg`<rect width="4" height=${height} fill="var(--accent)"></rect>` : nothing}
    ${isHere ? svg`<path d="M5 5l7 5l-7 5z" fill="var(--accent)"></path>` : nothing}
    <text x=${LEFT} y="14" class="name">${name}</text>
    ${
      cell.level
        ? svg` <text
            x=${cell.level.isRight ? CELL_WIDTH - 4 - SHAFT * shafts.length : LEFT}
            y=${cell.level.y}
            text-anchor=${cell.level.isRight ? 'end' : 'start'}
          >${cell.level.text}</text>`
        : nothing
    }
    ${counts.map(
      ({ outcome, text, y }) =>
        svg`<g transform=${`translate(${LEFT - 4} ${y}) scale(${MARK / MARK_GRID})`}>${markShape(outcome)}</g>
          <text x=${LEFT + MARK} y=${y + 12}>${text}</text>`,
    )}
    <rect class="ring" x="2" y="2" width=${CELL_WIDTH - 4} height=${height - 4}></rect>`;
}

/** Open through the slab. */
const drawShaft = (name: string, x: number, height: number): SVGTemplateResult =>
  svg`<g>
    <title>${name}</title>
    <path d=${`M${x} ${height}h${SHAFT - 3}`} stroke="var(--page)" stroke-width="3"></path>
    <path
      d=${`M${x} 0v${height + 1.5}m${SHAFT - 3} 0v${-height - 1.5}`}
      fill="none"
      stroke="var(--ink)"
      stroke-width="1"
    ></path>
  </g>`;
