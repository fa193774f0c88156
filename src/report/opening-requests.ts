/**
 * What openings the ducts need as they are modelled: where none is modelled, or the gaps of the one that is are wrong.
 * A request is for the structural engineer to agree; nothing here says that a barrier may be cut.
 */
import { neighboursOf } from '../draw/paper/neighbours.js';
import { bounds, overlaps } from '../geometry/polygon.js';
import type { Finding, Limit, Polygon, Vec2 } from '../model.js';
import { commonRange, openingSize, slideThrough } from '../opening-size.js';
import { within } from '../rules/limit.js';
import { number } from '../words/text.js';
import { limitWords } from '../words/values.js';
import { findingsByPenetration } from './penetration-outcome.js';
import type { Report, ReportFinding, ReportPenetration } from './schema.js';

export interface OpeningRequest {
  readonly penetration: ReportPenetration;
  readonly shape: 'rectangular' | 'circular';
  /** Along `along`; of a circular opening the diameter, like `height`. */
  readonly width: number;
  readonly height: number;
  /** Through the whole barrier. */
  readonly depth: number;
  /** Middle of the opening about the penetration's position, in its drawing's coordinates. */
  readonly centre: Vec2;
  /** Direction of the width, unit, in the drawing's coordinates. */
  readonly along: Vec2;
  /** The gap it gives, and where the range it was sized for comes from. */
  readonly basis: string;
  readonly reason: 'missing' | 'wrong';
}

export interface OpeningRequests {
  readonly requests: readonly OpeningRequest[];
  /** Openings that are missing or wrong for which none can be asked for, and why. */
  readonly withheld: readonly { readonly penetration: ReportPenetration; readonly why: string }[];
}

/**
 * @param results where the ranges of gaps are looked for: every result, where they are at hand, since a penetration
 * without an opening has no gaps of its own.
 */
export function openingRequests(
  report: Report,
  results: readonly Pick<Finding, 'check' | 'limit' | 'tolerance'>[] = report.findings,
): OpeningRequests {
  const findings = findingsByPenetration(report);
  const inUse = commonRange(results.filter(isGap).map(rangeOf));
  const penetrations = new Map(report.penetrations.map((p) => [p.id, p]));
  const requests: OpeningRequest[] = [];
  const withheld: { penetration: ReportPenetration; why: string }[] = [];
  for (const penetration of report.penetrations) {
    const own = (findings.get(penetration.id) ?? []).filter((f) => f.subject.id === penetration.id);
    const asked = own.filter((f) => f.outcome === 'failed' && (isMissing(f) || isGap(f)));
    if (asked.length === 0) continue;
    const made = requestFor(penetration, asked, inUse, penetrations);
    if (typeof made === 'string') withheld.push({ penetration, why: made });
    else requests.push(made);
  }
  return { requests, withheld };
}

const isMissing = ({ check }: Pick<Finding, 'check'>): boolean => check === 'opening-modelled';
const isGap = ({ check }: Pick<Finding, 'check'>): boolean => check.startsWith('gap-within-');

/** What is asked for is to pass once it is built, so the tolerances are off the range. */
const rangeOf = ({ limit, tolerance }: Pick<Finding, 'limit' | 'tolerance'>): Limit | null =>
  limit && within(limit, tolerance);

/** The request, or why there can be none. */
function requestFor(
  p: ReportPenetration,
  asked: readonly ReportFinding[],
  inUse: Limit | null,
  penetrations: ReadonlyMap<string, ReportPenetration>,
): OpeningRequest | string {
  const [outline] = p.outlines.duct;
  if (p.crossing !== 'through') return 'the duct does not go right through the barrier';
  if (p.others.length > 0 || Object.keys(p.gaps.facing).length > 0)
    return 'it shares its opening with other services; part them first';
  if (!outline || p.outlines.duct.length > 1 || p.duct.shape === 'unknown')
    return 'the section of the duct is not known';
  const { thickness } = p.barrier;
  if (thickness === null) return 'the thickness of the barrier is not known';
  const own = commonRange(asked.filter(isGap).map(rangeOf));
  const range = own ?? inUse;
  if (!range)
    return asked.some((f) => isGap(f) && f.limit !== null)
      ? 'no gap meets all limits by the tolerances'
      : 'no range of gaps is known to size it by';
  const along = edgeDirection(outline);
  const across: Vec2 = [-along[1], along[0]];
  const seen = outline.map(([x, y]): Vec2 => [x * along[0] + y * along[1], x * across[0] + y * across[1]]);
  const box = bounds([seen]);
  const [width, height] = [box.max[0] - box.min[0], box.max[1] - box.min[1]];
  const slide = slideThrough(p, thickness);
  const [slideAlong, slideAcross] = [along, across].map((d) => Math.abs(slide[0] * d[0] + slide[1] * d[1])) as [
    number,
    number,
  ];
  const isRound = p.duct.shape === 'circular' && slideAlong + slideAcross < STRAIGHT;
  const [w, h] = isRound
    ? [openingSize(Math.max(width, height), 0, range), openingSize(Math.max(width, height), 0, range)]
    : [openingSize(width, slideAlong, range), openingSize(height, slideAcross, range)];
  if (w === undefined || h === undefined)
    return `no opening square to the barrier keeps all gaps at ${limitWords(range, 'mm')} where the duct passes ${number(p.skew)}° off square`;
  const middle: Vec2 = [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2];
  const centre: Vec2 = [middle[0] * along[0] + middle[1] * across[0], middle[0] * along[1] + middle[1] * across[1]];
  const request: OpeningRequest = {
    ...{
      penetration: p,
      shape: isRound ? 'circular' : 'rectangular',
      width: w,
      height: h,
      depth: thickness,
      centre,
      along,
    },
    basis: `for gaps of ${limitWords(range, 'mm')}${own ? '' : ', the range of other penetrations of this review'}`,
    reason: asked.some(isMissing) ? 'missing' : 'wrong',
  };
  const inTheWay = neighboursOf(p, penetrations).find(({ outlines }) =>
    outlines.some((other) => overlaps(other, outlineOf(request))),
  );
  return inTheWay ? `it would reach into ${inTheWay.penetration.tag}; move one of the ducts first` : request;
}

/** A duct that slides by less than this across the barrier passes it square: half of what is reported. */
const STRAIGHT = 0.05;

/** Along the longest edge, the way it runs to the right; of an outline that is round the drawing's own right. */
function edgeDirection(outline: Polygon): Vec2 {
  if (outline.length !== 4) return [1, 0];
  const edges = outline.map((a, i): Vec2 => {
    const b = outline[(i + 1) % outline.length]!;
    return [b[0] - a[0], b[1] - a[1]];
  });
  const level = edges.reduce((best, e) => (Math.abs(e[0]) > Math.abs(best[0]) ? e : best));
  const size = Math.hypot(...level);
  if (size === 0) return [1, 0];
  const sign = level[0] < 0 ? -1 : 1;
  return [(sign * level[0]) / size, (sign * level[1]) / size];
}

/** Its box in the coordinates of the penetration's drawing. */
export function outlineOf({ width, height, centre, along }: OpeningRequest): Polygon {
  const corner = (x: number, y: number): Vec2 => [
    centre[0] + (x * width * along[0]) / 2 - (y * height * along[1]) / 2,
    centre[1] + (x * width * along[1]) / 2 + (y * height * along[0]) / 2,
  ];
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}

/** `660 × 360`, `Ø 300`. */
export const requestSize = ({ shape, width, height }: OpeningRequest): string =>
  shape === 'circular' ? `Ø ${number(width)}` : `${number(width)} × ${number(height)}`;
