/**
 * Straight pieces of ductwork: which way air goes through them, and their section square to it. Exact from swept
 * profiles, fitted for bare meshes. The extrusion direction alone proves nothing: some programs draw rectangular ducts
 * sideways.
 */
import { type Fit, fitShape } from '../geometry/fit.js';
import { isClosed, lineHits, solidsOf } from '../geometry/mesh.js';
import { principalDirections, tubeDirections } from '../geometry/principal.js';
import { extent, forEachVertex } from '../geometry/section.js';
import { add, distance, length, lineAngle, scale, sub, unit } from '../geometry/vector.js';
import type { AirElement, Body, Frame, Polygon, Vec3 } from '../model.js';
import { PORT_ON_FACE } from '../tolerances.js';
import { isOpenAlong, readAlong } from './read-along.js';
import { type Shells, toldApart } from './shells.js';

/** A straight piece: a section carried along an axis. */
export interface Straight {
  /** Centre line from end to end. */
  readonly axis: readonly [Vec3, Vec3];
  readonly direction: Vec3;
  /** Square to the axis; carries `outline` and `fit`. */
  readonly plane: Frame;
  readonly outline: Polygon;
  readonly fit: Fit;
  /** The largest hole of the section: the inside of a hollow profile. */
  readonly inside: Fit | undefined;
  /** The same section all along; false: an end is cut off askew, or something stands out all round. */
  readonly isWhole: boolean;
  readonly from: 'profile' | 'mesh';
  /** What to measure with: the exact prism in place of the body it was read from, and every other body. */
  readonly bodies: readonly Body[];
  /** Those of the bodies that the outline is the section of. */
  readonly section: readonly Body[];
  /** Insulation and lining that are bodies of their own round the sheet, or in it. */
  readonly shells: Shells;
}

/** Directions nearer than this to each other are one, degrees. */
const SAME_DIRECTION = 1;
/** Of two directions of one mesh that differ by less only the first is tried, degrees. */
const NEARLY = 5;

/** Every way in which the element is straight, the likeliest first; empty for bends, branches and transitions. */
export function straightReadings(element: AirElement): Straight[] {
  const bodies = element.bodies.flatMap(solidsOf);
  const main = largest(bodies);
  if (!main) return [];
  const ways = directions(main);
  const readings: Straight[] = [];
  for (const direction of ways) {
    const reading = readAlong(main, direction, bodies);
    if (reading) readings.push(toldApart(reading, main, bodies));
  }
  const portAxis = axisOfPorts(element);
  if (portAxis) return readings.filter((r) => lineAngle(r.direction, portAxis) < SAME_DIRECTION);
  // A bend or a transition is straight across its plane too, and mostly straight along its sides: no ways that air goes.
  const isWay = (r: Straight) => element.kind !== 'fitting' || (r.isWhole && r.fit.shape !== 'unknown');
  const possible = readings.filter(isWay);
  const likely = trusted(main, ways, possible);
  // Air goes along a tube, and along a pipe-shaped piece, whatever its length.
  const certain = likely.filter((r) => r.inside || r.fit.shape === 'circular' || r.fit.shape === 'oval');
  if (certain.length > 0) return certain;
  const whole = likely.filter((r) => r.isWhole);
  return (whole.length > 0 ? whole : likely).sort((a, b) => lengthOf(b) - lengthOf(a));
}

/**
 * Of a surface with gaps most sections are guesses, and a box without one side reads as straight three ways: then it is
 * a tube that is open at both ends, or its length decides.
 */
function trusted(main: Body, ways: readonly Vec3[], readings: Straight[]): Straight[] {
  if (main.kind === 'prism' || isClosed(main) || !ways.some((way) => isOpenAlong(main, way))) return readings;
  const tubes = readings.filter(
    (r) => !isOpenAlong(main, r.direction) && lineHits(main, r.axis[0], r.direction).length === 0,
  );
  if (tubes.length > 0) return tubes;
  const lengthAlong = (way: Vec3): number => {
    const [low, high] = extent([main], [0, 0, 0], way);
    return high - low;
  };
  const longest = Math.max(...ways.map(lengthAlong));
  return readings.filter((r) => lengthAlong(r.direction) > longest - PORT_ON_FACE);
}

export const lengthOf = (s: Straight): number => distance(s.axis[0], s.axis[1]);

/**
 * Chooses among several readings (a plain box is straight in three directions): the one whose ends meet other ductwork,
 * else the longest, which only a duct segment may be judged by.
 */
export function chooseReading(
  readings: readonly Straight[],
  element: AirElement,
  isJointAt: (end: Vec3, direction: Vec3) => boolean,
): { readonly straight: Straight | undefined; readonly isCertain: boolean } {
  if (readings.length < 2) return { straight: readings[0], isCertain: true };
  const joined = readings.map((r) => r.axis.filter((end) => isJointAt(end, r.direction)).length);
  const most = Math.max(...joined);
  const met = readings[joined.indexOf(most)]!;
  // A branch in the middle of a long side lies in line with the way across, too.
  const isSide = most === 1 && isDrawnAlong(element, readings[0]!) && !isDrawnAlong(element, met);
  if (most > 0 && !isSide) return { straight: met, isCertain: true };
  const isDuct = element.kind === 'segment' || element.kind === 'flexible';
  return { straight: isDuct ? readings[0] : undefined, isCertain: false };
}

const isDrawnAlong = ({ bodies }: AirElement, { direction }: Straight): boolean =>
  bodies.some((body) => body.kind === 'prism' && lineAngle(body.sweep, direction) < SAME_DIRECTION);

function axisOfPorts(element: AirElement): Vec3 | undefined {
  let best: Vec3 | undefined;
  for (const a of element.ports)
    for (const b of element.ports) {
      const d = sub(b.at, a.at);
      if (length(d) > PORT_ON_FACE && (!best || length(d) > length(best))) best = d;
    }
  return best && unit(best);
}

function largest(bodies: readonly Body[]): Body | undefined {
  const size = (body: Body): number => {
    const [x, y, z] = ([0, 1, 2] as const).map((i) => {
      const axis: Vec3 = [i === 0 ? 1 : 0, i === 1 ? 1 : 0, i === 2 ? 1 : 0];
      const [low, high] = extent([body], [0, 0, 0], axis);
      return high - low + 1;
    });
    return x! * y! * z!;
  };
  return [...bodies].sort((a, b) => size(b) - size(a))[0];
}

/** A prism can be straight along its sweep, and across it where its profile is a rectangle. */
function directions(body: Body): Vec3[] {
  if (body.kind === 'prism') {
    const sides: Vec3[] = [];
    const fit = fitShape(body.outline);
    if (body.voids.length === 0 && fit.shape === 'rectangular') {
      const [u, v] = fit.along;
      const side = (a: number, b: number) => add(scale(body.frame.x, a), scale(body.frame.y, b));
      sides.push(side(u, v), side(-v, u));
    }
    return [unit(body.sweep), ...sides];
  }
  const points: Vec3[] = [];
  forEachVertex(body, (p) => points.push(p));
  const all = [...tubeDirections(body), ...principalDirections(points)];
  // A direction that is nearly another is the same one, thrown off by what stands out of the duct.
  return all.filter((d, i) => all.slice(0, i).every((other) => lineAngle(d, other) > NEARLY));
}

/** The two section directions of the fit in space: along its longer side, and square to that. */
export function sectionDirections(s: Pick<Straight, 'fit' | 'plane'>): readonly [Vec3, Vec3] {
  const [u, v] = s.fit.along;
  return [add(scale(s.plane.x, u), scale(s.plane.y, v)), add(scale(s.plane.x, -v), scale(s.plane.y, u))];
}
