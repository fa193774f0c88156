/**
 * A section along the duct, square to the barrier: what the barrier is built of, the gaps, and all that the chosen detail
 * builds, numbered in the order of the work. Of the same size as the elevation, so that both go together.
 */
import { bounds } from '../../geometry/polygon.js';
import type { Vec2 } from '../../model.js';
import type { ReportPenetration } from '../../report/schema.js';
import { brief, capital } from '../../words/text.js';
import { MEDIUM } from './dimension.js';
import { drawingOf } from './drawing.js';
import { BARE_WIDTH, SHEET_HEIGHT, SHEET_WIDTH } from './elevation.js';
import { hatchPattern } from './hatch.js';
import { drawLabel, labelSize } from './label.js';
import { type Box, Sheet } from './layout.js';
import { INK } from './palette.js';
import { drawScaleBar } from './scale-bar.js';
import { type Built, builtIn } from './section/built.js';
import { type Cut, cutOf, cutWords } from './section/cut.js';
import { drawDimensions } from './section/dimensions.js';
import { drawLegend, drawNumbers, drawSentences, type Entry, leaderBoxes, placeNumbers } from './section/legend.js';
import { clipped, drawBarrier, drawBuilt, drawCasings, drawDuct } from './section/shapes.js';
import { type Extent, type SectionView, sectionView } from './section/view.js';
import { barrierWords, noteTexts, partWords, protectionWords } from './section/words.js';
import { element } from './svg.js';
import { wrapped } from './text.js';
import { drawTitleBlock } from './title-block.js';

export interface SectionInput {
  readonly penetration: ReportPenetration;
  /** Tells this drawing's patterns from those of other drawings on the same page: letters and digits. */
  readonly id: string;
  readonly revision?: string | null;
  /** CSS with the typeface, where the drawing has to carry its own; see `fontFaces`. */
  readonly style?: string;
  /** Without notes and title block, where what stands round the drawing says the same: {@link BARE_WIDTH} wide. */
  readonly isBare?: boolean;
}

/** Where things stand on the sheet: beside a duct that stands the legend is a column, under one that lies it is two. */
interface Layout {
  readonly window: Box;
  /** Of the numbers. */
  readonly band: Box;
  readonly inside: Box;
  readonly scaleBar: Box;
  readonly legend: readonly Box[];
}
const LEVEL: Layout = {
  window: { x: 0.5, y: 0.5, width: 125, height: 66 },
  band: { x: 2, y: 1.5, width: 122, height: 5 },
  inside: { x: 4, y: 10, width: 118, height: 53 },
  scaleBar: { x: 1, y: 68, width: 125, height: 7 },
  legend: [
    { x: 1, y: 76, width: 61, height: 35.5 },
    { x: 65, y: 76, width: 61, height: 35.5 },
  ],
};
const UPRIGHT: Layout = {
  window: { x: 0.5, y: 0.5, width: 75, height: 102 },
  band: { x: 69, y: 2, width: 5, height: 99 },
  inside: { x: 4, y: 4, width: 62, height: 95 },
  scaleBar: { x: 1, y: 104.5, width: 125, height: 7 },
  legend: [{ x: 78, y: 1, width: 47.5, height: 101 }],
};
const COLUMN: Box = { x: 128.5, y: 0.5, width: 51, height: 111 };
const NOTES_GAP = 2;

export function drawSection(input: SectionInput): string {
  const { penetration: p, id } = input;
  const { cut, layout, built, view } = setUp(p);
  const { window } = layout;
  const { band } = layout;
  const sheet = new Sheet(
    cut.isLevel
      ? { ...window, y: band.y + band.height + 0.5, height: window.height - band.height - 2 }
      : { ...window, width: band.x - window.x - 1 },
  );
  const entries = entriesOf(p, cut, built, view);
  const numbers = placeNumbers(entries, band);
  for (const box of [...leaderBoxes(numbers), ...builtBoxes(built, cut, view)]) sheet.reserve(box);
  const width = input.isBare ? BARE_WIDTH : SHEET_WIDTH;
  const title = drawTitleBlock({ penetration: p, scale: view.scale, revision: input.revision ?? null }, COLUMN);
  const isShortened = view.omitted !== null;
  return drawingOf(
    { width, height: SHEET_HEIGHT, title: `Section of ${brief(p.tag, 40)}`, style: input.style },
    element(
      'defs',
      {},
      element('clipPath', { id: `window-${id}` }, element('rect', { ...window })),
      hatchPattern(`barrier-${id}`, p.barrier.construction, p.barrier.rating),
    ),
    element(
      'g',
      { 'clip-path': `url(#window-${id})` },
      drawBarrier(cut, view, id),
      drawDuct(cut, view),
      ...inDrawingOrder(built).map((one) => drawBuilt(one, nameOf(p, one), view)),
      drawCasings(p, cut, view),
      sideWords(p, cut, layout, sheet),
      drawDimensions(p, cut, built, view, sheet),
      drawNumbers(numbers),
    ),
    element('rect', { ...window, fill: 'none', stroke: INK, 'stroke-width': MEDIUM }),
    drawScaleBar(view.scale, layout.scaleBar, cutWords(cut), input.isBare),
    drawLegend(entries, layout.legend),
    ...(input.isBare
      ? []
      : [
          drawSentences(noteTexts(p, cut, built, isShortened), {
            ...COLUMN,
            height: COLUMN.height - title.height - NOTES_GAP,
          }),
          title.markup,
        ]),
  );
}

/** What a section does not show, or shows otherwise than it is: for papers that draw it bare. */
export function sectionNotes(p: ReportPenetration): string[] {
  const { cut, built, view } = setUp(p);
  return noteTexts(p, cut, built, view.omitted !== null);
}

function setUp(p: ReportPenetration) {
  const cut = cutOf(p);
  const layout = cut.isLevel ? LEVEL : UPRIGHT;
  const built = builtIn(p, cut);
  const view = sectionView(cut, extentOf(p, cut, built), layout.inside);
  return { cut, layout, built, view };
}

/** What is thin lies over what is thick. */
function inDrawingOrder({ drawn }: Built): Built['drawn'] {
  const rank = ({ shapes }: Built['drawn'][number]): number => {
    const hatch = shapes[0]?.hatch;
    return hatch === 'sealant' ? 3 : hatch === 'steel' ? 2 : hatch === 'board' ? 1 : 0;
  };
  return [...drawn].sort((a, b) => rank(a) - rank(b));
}

/** Where text would hide what is built. A box round what lies askew would take too much. */
function builtBoxes({ drawn }: Built, { slope }: Cut, view: SectionView): Box[] {
  const shapes = drawn.flatMap((one) => one.shapes).filter(({ hatch }) => hatch !== 'packing');
  const kept = slope === 0 ? shapes : shapes.filter(({ hatch }) => hatch === 'steel' || hatch === 'sealant');
  return kept.map(({ outline }) => {
    const { min, max } = bounds([clipped(outline, view)]);
    return { x: min[0], y: min[1], width: max[0] - min[0], height: max[1] - min[1] };
  });
}

const nameOf = ({ treatment }: ReportPenetration, { part }: Built['drawn'][number]): string =>
  part === 'protection' ? part : (treatment.chosen?.parts[part]?.part ?? '');

/** On each side of what is built as much again as is needed to see that barrier and duct go on. */
function extentOf(p: ReportPenetration, cut: Cut, { reach, faces }: Built): Extent {
  const { duct, opening, thickness } = cut;
  const half = thickness / 2;
  const stands = p.dampers.flatMap(({ standsOut }) => standsOut ?? []);
  const least = Math.max(0.45 * thickness, 60, ...stands.map((out) => out + 40));
  const along = (face: -1 | 1): number => half + Math.max(least, faces.includes(face) ? reach.along * 1.15 + 30 : 0);
  const edges = [
    ...(duct ?? []),
    ...(opening ?? []),
    ...(duct ? [duct[0] - reach.across, duct[1] + reach.across] : []),
  ];
  const [low, high] = edges.length > 0 ? [Math.min(...edges), Math.max(...edges)] : [-half, half];
  const aside = 0.1 * Math.max(reach.across, thickness);
  // Where the duct is askew, what is built at one face lies higher than at the other.
  const far = Math.abs(cut.slope) * (half + reach.along);
  return { along: [-along(-1), along(1)], across: [low - aside - far, high + aside + far] };
}

/** Letters for what is there, figures for the work. */
function entriesOf(p: ReportPenetration, cut: Cut, { drawn }: Built, view: SectionView): Entry[] {
  const { chosen, kind } = p.treatment;
  const onPaper = (targets: readonly Vec2[]): Vec2[] => targets.map(([along, across]) => view.at(along, across));
  const high = view.across[1] - 4 * view.scale;
  const protection = drawn.find(({ part }) => part === 'protection');
  const isProtected = chosen !== null || (kind !== 'none' && kind !== 'unknown' && kind !== 'damper');
  const there: { readonly text: string; readonly targets: readonly Vec2[] }[] = [
    { text: barrierWords(p, cut), targets: [view.at(cut.thickness * 0.15, high)] },
    ...(isProtected ? [{ text: protectionWords(p), targets: onPaper(protection?.targets ?? []) }] : []),
    ...p.dampers.map(({ standsOut, name }) => ({
      text: casingWords(name, standsOut),
      targets:
        cut.duct && standsOut ? [view.at(cut.thickness / 2 + standsOut[cut.sense > 0 ? 1 : 0] * 0.5, cut.duct[1])] : [],
    })),
  ];
  const work = (chosen?.parts ?? []).map((part, i) => ({
    mark: String(i + 1),
    text: partWords(part, chosen?.faces ?? null, cut),
    targets: onPaper(drawn.find((one) => one.part === i)?.targets ?? []),
  }));
  return [...work, ...there.map((one, i) => ({ ...one, mark: String.fromCharCode(97 + (i % 26)) }))];
}

const casingWords = (name: string, standsOut: readonly [number, number] | null): string =>
  standsOut
    ? `Casing of damper ${brief(name, 20)}, ${standsOut[0]} and ${standsOut[1]} out of the faces`
    : `Damper ${brief(name, 20)}: how far it stands out is not known`;

const SMALL = { lettering: 'small' } as const;

/** Which way is which: beside the faces, where nothing is drawn. */
function sideWords(p: ReportPenetration, { isLevel, sense }: Cut, { window }: Layout, sheet: Sheet): string {
  return ([-1, 1] as const)
    .map((end) => {
      const face = p.faces[end * sense < 0 ? 0 : 1];
      if (!face) return '';
      const room = face.room === null ? '' : `: ${face.room}`;
      const lines = wrapped(`${capital(face.towards)}${room}`, isLevel ? 42 : 20, isLevel ? 1 : 2, SMALL);
      const label = { lines: lines.map((text) => ({ text, ...SMALL })) };
      const { width, height } = labelSize(label);
      const x = isLevel && end > 0 ? window.x + window.width - width - 1 : window.x + 1;
      const y = !isLevel && end > 0 ? window.y + 1 : window.y + window.height - height - 1;
      const place = sheet.place([{ x, y, width, height }]);
      return place ? drawLabel(label, place) : '';
    })
    .join('');
}
