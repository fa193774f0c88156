/**
 * Insulation, sheet and lining drawn as bodies of their own, one in the other: told apart by how thick each is. A flange
 * or a stiffener goes round the duct too, but not along it.
 */
import { type Fit, fitShape } from '../geometry/fit.js';
import { raised } from '../geometry/frame.js';
import { area } from '../geometry/polygon.js';
import { cutBody, extent } from '../geometry/section.js';
import type { Body } from '../model.js';
import { LEAST_SHELL_LENGTH, MOST_SHEET, SAME_CENTRE } from '../tolerances.js';
import { readAlong } from './read-along.js';
import type { Straight } from './straight.js';

export interface Shells {
  /** Bodies of the insulation outside the sheet; none where it is not drawn by itself. */
  readonly insulation: readonly Body[];
  /** Thickness of all of it, mm; undefined where there is none. */
  readonly insulationThickness: number | undefined;
  /** Of what is drawn within the sheet and thicker than it, mm. */
  readonly liningThickness: number | undefined;
}

const NONE: Shells = { insulation: [], insulationThickness: undefined, liningThickness: undefined };

interface Shell {
  readonly body: Body;
  readonly outer: Fit;
  readonly inner: Fit | undefined;
}

/** The reading with its sheet as the section, where other bodies show which it is. */
export function toldApart(reading: Omit<Straight, 'shells'>, main: Body, bodies: readonly Body[]): Straight {
  if (bodies.length < 2) return { ...reading, shells: NONE };
  const own: Shell = { body: main, outer: reading.fit, inner: reading.inside };
  const others = bodies.filter((body) => body !== main).flatMap((body) => shellOf(body, reading) ?? []);
  const nested = [own, ...others].sort((a, b) => b.outer.breadth - a.outer.breadth);
  if (nested.length < 2) return { ...reading, shells: NONE };

  const sheetAt = nested.findIndex((shell, i) => i === nested.length - 1 || wallOf(shell, nested[i + 1]) <= MOST_SHEET);
  const [outermost, sheet] = [nested[0]!, nested[sheetAt]!];
  const insulation = nested.slice(0, sheetAt).map((shell) => shell.body);
  const lining = nested[sheetAt + 1];
  const shells: Shells = {
    insulation,
    insulationThickness: sheetAt > 0 ? (outermost.outer.breadth - sheet.outer.breadth) / 2 : undefined,
    liningThickness: lining?.inner && (lining.outer.breadth - lining.inner.breadth) / 2,
  };
  if (sheet.body === main) return { ...reading, shells };
  const reread = readAlong(sheet.body, reading.direction, bodies);
  return reread ? { ...reread, shells } : { ...reading, shells: NONE };
}

/** Between the outside of one shell and the outside of the next one in it, or its own inside. */
function wallOf({ outer, inner }: Shell, next: Shell | undefined): number {
  const within = [inner?.breadth, next?.outer.breadth].filter((b) => b !== undefined);
  return within.length > 0 ? (outer.breadth - Math.max(...within)) / 2 : Number.POSITIVE_INFINITY;
}

/** The body where it goes round the same axis, long enough to be no flange; undefined for everything else. */
function shellOf(body: Body, { plane, direction, fit }: Omit<Straight, 'shells'>): Shell | undefined {
  const [low, high] = extent([body], plane.origin, direction);
  if (high - low < LEAST_SHELL_LENGTH) return undefined;
  const { outers, holes } = cutBody(body, raised(plane, (low + high) / 2));
  const [outline] = [...outers].sort((a, b) => area(b) - area(a));
  const [hole] = [...holes].sort((a, b) => area(b) - area(a));
  if (!outline || outers.length > 1) return undefined;
  const outer = fitShape(outline);
  const off = Math.hypot(outer.centre[0] - fit.centre[0], outer.centre[1] - fit.centre[1]);
  if (off > SAME_CENTRE || Math.abs(outer.breadth - fit.breadth) < 1e-3) return undefined;
  return { body, outer, inner: hole && fitShape(hole) };
}
