/** Dimensions of a section: the gaps, the barrier, the duct, and how far a build-up goes. */
import type { Vec2 } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import { number } from '../../../words/text.js';
import { drawDimension, THIN } from '../dimension.js';
import type { Sheet } from '../layout.js';
import { INK, SECONDARY } from '../palette.js';
import { element, line } from '../svg.js';
import type { Built } from './built.js';
import { type Cut, ductSize } from './cut.js';
import type { SectionView } from './view.js';

/** On paper: from the end of the barrier, and from what is built, to the dimension line; from the end of the duct. */
const FOOT = 3;
const BESIDE = 4.2;
const FROM_END = 9;

export function drawDimensions(p: ReportPenetration, cut: Cut, built: Built, view: SectionView, sheet: Sheet): string {
  const dimension = (from: Vec2, to: Vec2, text: string): string =>
    drawDimension(from, to, { lines: [{ text, lettering: 'normal' }] }, INK, sheet);
  return [
    ...gaps(cut, view, dimension),
    ductAcross(p, cut, view, dimension),
    buildUpLength(cut, built, view, dimension),
    barrierThickness(cut, built, view, dimension),
  ].join('');
}

type Dimension = (from: Vec2, to: Vec2, text: string) => string;

/** Towards the duct, in which there is room for their text. */
function gaps({ duct, opening, gaps: both }: Cut, view: SectionView, dimension: Dimension): string[] {
  if (!duct || !opening) return [];
  return ([0, 1] as const).flatMap((side) => {
    const gap = both[side];
    if (!gap) return [];
    return [dimension(view.at(0, opening[side]), view.at(0, duct[side]), number(gap.value).replace('-', '\u2212'))];
  });
}

/** Square to the duct. */
function ductAcross(p: ReportPenetration, cut: Cut, view: SectionView, dimension: Dimension): string {
  if (!cut.duct) return '';
  const { slope } = cut;
  const [lower, higher] = cut.duct;
  const place = view.along[0] + FROM_END * view.scale;
  const rise = (higher - lower) / (1 + slope * slope);
  const ends = [
    [place, lower + slope * place],
    [place - slope * rise, lower + slope * place + rise],
  ] as const;
  return dimension(view.at(...ends[0]), view.at(...ends[1]), ductSize(p, cut));
}

function buildUpLength(cut: Cut, { buildUp, faces }: Built, view: SectionView, dimension: Dimension): string {
  const [face] = faces;
  if (!buildUp || !cut.duct || face === undefined) return '';
  const half = cut.thickness / 2;
  const places = [face * half, face * (half + buildUp.end)];
  const edges = places.map((along) => cut.duct![0] - buildUp.outside + cut.slope * along);
  const ends = places.map((along, i) => view.at(along, edges[i]! - BESIDE * view.scale));
  const reach = places.map((along, i) => line(view.at(along, edges[i]! - 0.8 * view.scale), ends[i]!));
  return [
    element('path', { d: reach.join(''), stroke: SECONDARY, 'stroke-width': THIN, fill: 'none' }),
    dimension(ends[0]!, ends[1]!, number(buildUp.length)),
  ].join('');
}

/** Its text stands away from that of the build-up. */
function barrierThickness(cut: Cut, { faces }: Built, view: SectionView, dimension: Dimension): string {
  const foot = view.across[0] + FOOT * view.scale;
  const away = (faces[0] ?? -1) * -1;
  const text = cut.isThicknessKnown ? number(cut.thickness) : 'not known';
  return dimension(view.at((-away * cut.thickness) / 2, foot), view.at((away * cut.thickness) / 2, foot), text);
}
