/**
 * How a cut barrier is hatched: the pattern tells what it is built of, the spacing how long it is rated for, dots that
 * its rating is not known. The title block says both in words.
 */
import type { Construction, Rating } from '../../model.js';
import { INK, RAISED, RULE } from './palette.js';
import { element } from './svg.js';

/** Millimetres on paper between hatch lines. */
const WIDE = 3;
const MEDIUM = 2.25;
const CLOSE = 1.5;

/** Of a dot, so that it is told from a line on a poor print. */
const DOT = 0.35;

/** Lines through a square of side s; `turn` in degrees. Common drawing practice, no source. */
interface Pattern {
  readonly turn: number;
  readonly lines: (s: number) => string;
}

const PLAIN: Pattern = { turn: 45, lines: (s) => `M0 0V${s}` };
/** Two lines near to each other: masonry. */
const PAIRED: Pattern = { turn: 45, lines: (s) => `M0 0V${s}M${s / 4} 0V${s}` };
/** A line and a broken line: concrete. */
const BROKEN: Pattern = { turn: 45, lines: (s) => `M0 0V${s}M${s / 2} ${s * 0.15}V${s * 0.5}` };
const UPRIGHT: Pattern = { turn: 0, lines: (s) => `M${s / 2} 0V${s}` };
const LEVEL: Pattern = { turn: 90, lines: (s) => `M${s / 2} 0V${s}` };
const CROSSED: Pattern = { turn: 45, lines: (s) => `M0 0V${s}M0 0H${s}` };

const PATTERNS: { readonly [C in Construction]: Pattern } = {
  concrete: BROKEN,
  hollowCore: BROKEN,
  ribbedDeck: BROKEN,
  masonry: PAIRED,
  aeratedConcrete: PAIRED,
  steelStud: UPRIGHT,
  timberStud: UPRIGHT,
  shaftWall: UPRIGHT,
  massTimber: CROSSED,
  sandwichPanel: LEVEL,
  unknown: PLAIN,
};

/** How near lines stand to each other, by minutes: below 90, below 120, more; dotted where they are not known. */
export const HATCHES = ['wide', 'medium', 'close', 'dotted'] as const;
export type Hatch = (typeof HATCHES)[number];
const SPACING: { readonly [H in Hatch]: number } = { wide: WIDE, medium: MEDIUM, close: CLOSE, dotted: WIDE };

export function hatchOf(rating: Rating): Hatch {
  const minutes = ratedMinutes(rating);
  if (minutes === null) return 'dotted';
  return minutes < 90 ? 'wide' : minutes < 120 ? 'medium' : 'close';
}

/** As data, for drawings that have colours and units of their own. */
export interface HatchLines {
  /** Degrees. */
  readonly turn: number;
  /** Of the square that is repeated, in the units of {@link path}. */
  readonly size: number;
  readonly path: string;
  readonly isDotted: boolean;
}

/** @param unit of the drawing in a millimetre */
export const hatchLines = (construction: Construction, hatch: Hatch, unit: number): HatchLines =>
  linesOf(PATTERNS[construction], hatch, unit);

function linesOf({ turn, lines }: Pattern, hatch: Hatch, unit: number): HatchLines {
  const size = SPACING[hatch] * unit;
  return { turn, size, path: lines(size), isDotted: hatch === 'dotted' };
}

export const hatchPattern = (id: string, construction: Construction, rating: Rating): string =>
  patternOf(id, hatchLines(construction, hatchOf(rating), 1), RULE);

/** Of walls on plan: too thin for a pattern of what they are built of, and for lines as far apart as in an elevation. */
export const planHatch = (id: string, hatch: Hatch): string => patternOf(id, linesOf(PLAIN, hatch, ON_PLAN), INK);
const ON_PLAN = 0.6;

function patternOf(id: string, { turn, size, path, isDotted }: HatchLines, colour: string): string {
  const stroke = { stroke: colour, 'stroke-width': 0.18, 'stroke-linecap': 'round', fill: 'none' };
  return element(
    'pattern',
    { id, width: size, height: size, patternUnits: 'userSpaceOnUse', patternTransform: `rotate(${turn})` },
    element('path', { d: `M0 0H${size}V${size}H0Z`, fill: RAISED }),
    element('path', {
      d: path,
      ...stroke,
      ...(isDotted ? { 'stroke-dasharray': '0 0.75', 'stroke-width': DOT } : {}),
    }),
  );
}

/** The longest time that is asked of the separation; null where it can't be known. */
function ratedMinutes({ state, integrity, insulation, duration }: Rating): number | null {
  if (state === 'notRequired') return 0;
  const known = [integrity, insulation, duration].filter((value) => typeof value === 'number');
  return known.length > 0 ? Math.max(...known) : null;
}
