/** Barrier, opening, duct and what is built, as they are drawn in the cut. */
import type { Polygon, Vec2 } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import { MEDIUM, THICK, THIN } from '../dimension.js';
import { INK, PAGE, SECONDARY, SHEET } from '../palette.js';
import { closedPath, element, line } from '../svg.js';
import type { Drawn, Hatch } from './built.js';
import type { Band, Cut, Interval } from './cut.js';
import { GROUNDS, hatchLines } from './hatches.js';
import type { SectionView } from './view.js';

const box = ([a0, a1]: Interval, [c0, c1]: Interval): Polygon => [
  [a0, c0],
  [a1, c0],
  [a1, c1],
  [a0, c1],
];

/** Cut on both sides of the opening; where none is modelled, up to the duct. */
export function drawBarrier(cut: Cut, view: SectionView, id: string): string {
  const [lower, higher] = solidOf(cut, view);
  const isWhole = lower[1] === higher[0];
  const parts = cut.bands.flatMap(({ kind, at }) =>
    (isWhole ? [[lower[0], higher[1]] as const] : [lower, higher]).map((across) => {
      const outline = view.outline(box(at, across));
      const hatch = BANDS[kind];
      const fill = kind === 'cavity' ? SHEET : hatch ? GROUNDS[hatch] : `url(#barrier-${id})`;
      const edge = { stroke: INK, 'stroke-width': THIN, 'data-part': kind };
      return element('path', { d: closedPath([outline]), fill, ...edge }) + (hatch ? hatchLines(outline, hatch) : '');
    }),
  );
  const half = cut.thickness / 2;
  const edges = [lower, higher].flatMap(([from, to], i) => {
    const end = i === 0 ? to : from;
    const far = i === 0 ? from : to;
    return [
      line(view.at(-half, far), view.at(-half, end)),
      ...(isWhole ? [] : [line(view.at(-half, end), view.at(half, end))]),
      line(view.at(half, end), view.at(half, far)),
    ];
  });
  const breaks = [lower[0], higher[1]].map((across) => breakLine(view.at(-half, across), view.at(half, across)));
  return [
    ...parts,
    element('path', { d: edges.join(''), stroke: INK, 'stroke-width': THICK, fill: 'none' }),
    ...breaks,
  ].join('');
}

function solidOf({ opening, duct }: Cut, { across }: SectionView): readonly [Interval, Interval] {
  const hole = opening ?? duct ?? [0, 0];
  return [
    [Math.min(across[0], hole[0]), hole[0]],
    [hole[1], Math.max(across[1], hole[1])],
  ];
}

/** Leaves and frames have the hatch of what the barrier is built of, as in the elevation. */
const BANDS: { readonly [K in Band['kind']]?: Hatch } = { board: 'board', lining: 'diagonal' };

export function drawBuilt({ shapes, part }: Drawn, name: string, view: SectionView): string {
  return shapes
    .map(({ hatch, outline }) => {
      const onPaper = clipped(outline, view);
      const isThin = hatch === 'sealant' || hatch === 'steel';
      const edge = {
        stroke: hatch === 'sealant' ? SHEET : INK,
        'stroke-width': isThin ? 0.12 : part === 'protection' ? THIN : MEDIUM,
      };
      const d = closedPath([onPaper]);
      return element('path', { d, fill: GROUNDS[hatch], 'data-part': name, ...edge }) + hatchLines(onPaper, hatch);
    })
    .join('');
}

/** What runs on along the duct ends where the duct is broken off. */
export function clipped(outline: Polygon, view: SectionView): Polygon {
  const [from, to] = view.along;
  const slope = (a: Vec2, b: Vec2): number => (a[0] === b[0] ? 0 : (b[1] - a[1]) / (b[0] - a[0]));
  const moved = outline.map((point, i): Vec2 => {
    const along = Math.max(from, Math.min(to, point[0]));
    if (along === point[0]) return point;
    const before = outline[(i + outline.length - 1) % outline.length]!;
    const after = outline[(i + 1) % outline.length]!;
    const other = Math.abs(before[0] - point[0]) > Math.abs(after[0] - point[0]) ? before : after;
    return [along, point[1] + slope(point, other) * (along - point[0])];
  });
  return view.outline(moved);
}

/** Its sheet as two lines; how thick it is would not be seen at any scale. */
export function drawDuct(cut: Cut, view: SectionView): string {
  if (!cut.duct) return '';
  const [from, to] = view.along;
  const at = (along: number, across: number): Vec2 => view.at(along, across + cut.slope * along);
  const [lower, higher] = cut.duct;
  const thin = SHEET_LINES * view.scale;
  const inside: Polygon = [at(from, lower), at(to, lower), at(to, higher), at(from, higher)];
  const lines = (d: readonly string[], width: number) =>
    element('path', { d: d.join(''), stroke: INK, 'stroke-width': width, fill: 'none' });
  const along = (across: number): string => line(at(from, across), at(to, across));
  const axis = (lower + higher) / 2;
  return [
    element('path', { d: closedPath([inside]), fill: PAGE, 'data-part': 'duct' }),
    lines([along(lower), along(higher)], MEDIUM * 1.4),
    lines([along(lower + thin), along(higher - thin)], THIN),
    view.omitted
      ? view.omitted.map((across) => breakLine(at(from, across), at(to, across))).join('')
      : element('path', {
          d: along(axis),
          ...{ stroke: SECONDARY, 'stroke-width': THIN, 'stroke-dasharray': '6 1 0.6 1' },
        }),
    breakLine(at(from, lower), at(from, higher)),
    breakLine(at(to, lower), at(to, higher)),
  ].join('');
}

/** Between the two lines of the sheet, on paper. */
const SHEET_LINES = 0.6;

/** As far as it is known: a box that stands out of the faces. */
export function drawCasings(p: ReportPenetration, cut: Cut, view: SectionView): string {
  if (!cut.duct) return '';
  const { duct } = cut;
  return p.dampers
    .map(({ standsOut }) => {
      if (!standsOut) return '';
      const ends = cut.sense > 0 ? standsOut : ([standsOut[1], standsOut[0]] as const);
      const half = cut.thickness / 2;
      const outline = box([-half - ends[0], half + ends[1]], duct).map(([a, c]): Vec2 => [a, c + cut.slope * a]);
      return element('path', {
        ...{ d: closedPath([view.outline(outline)]), fill: 'none', stroke: INK, 'stroke-width': THICK * 1.4 },
        'data-part': 'casing',
      });
    })
    .join('');
}

/** Thin, with a zigzag in its middle (ISO 128-2, line type 01.1). */
function breakLine(from: Vec2, to: Vec2): string {
  const size = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (size < 1e-6) return '';
  const along: Vec2 = [(to[0] - from[0]) / size, (to[1] - from[1]) / size];
  const at = (by: number, aside: number): Vec2 => [
    from[0] + along[0] * by - along[1] * aside,
    from[1] + along[1] * by + along[0] * aside,
  ];
  const z = Math.min(1, size / 6);
  const [over, middle] = [Math.min(1.5, size / 4), size / 2];
  const points = [
    at(-over, 0),
    at(middle - z, 0),
    at(middle - z / 2, z),
    at(middle + z / 2, -z),
    at(middle + z, 0),
    at(size + over, 0),
  ];
  const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(2)} ${y.toFixed(2)}`).join('');
  return element('path', { d, stroke: INK, 'stroke-width': THIN, fill: 'none' });
}
