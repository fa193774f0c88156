/**
 * Does a review of a mutant say that fire is held back where that can't be known? Every result about fire that passed, or
 * would pass, is held against two things that share no code with the program:
 *
 * 1. What an aimed mutation took away. Nothing passes that hangs on it: no result of a check of what was taken, at no
 *    penetration of the products that lost it, and no such penetration as a whole.
 * 2. What the mutant's text says when it is read again (`reread.ts`): gaps, sizes of ducts, openings and walls are measured
 *    again and must be the same within 0.2 mm and keep the limit; the minutes of a rating must stand in the text; there
 *    must be a material; a damper must be called one that holds back fire; duct and barrier must have a body.
 *
 * What it does not see: files that our own writer did not make, bodies other than extruded rectangles, ducts that are not
 * square to the barrier, gaps in floors, sides that face another service, ids that are there twice, what lines say that are
 * damaged (all counted as not reread), how thick a leaf is within its wall, checks of clearances, supports, runs and
 * compartments beyond what is taken away, and whether limits of rules are right (they are tested elsewhere).
 */
import type { Report } from '../../src/index.js';
import type { BareFinding as Finding } from '../../src/rules/index.js';
import type { Taken } from './aimed.js';
import {
  type Box,
  boxOf,
  dot,
  hasMaterial,
  nameOf,
  openingsOf,
  ratingsOf,
  sidesAcross,
  spanOf,
  throughOf,
} from './reread.js';
import type { Instance, StepText } from './step-text.js';

export type Penetration = Report['penetrations'][number];

export interface Judged {
  readonly report: Report;
  /** All of them, also those that passed. */
  readonly results: readonly Finding[];
  /** Ids of checks about fire. */
  readonly fire: ReadonlySet<string>;
}

export interface Verdict {
  readonly falsePasses: readonly string[];
  /** Results about fire that passed or would pass; how many of them were held against the text. */
  readonly passes: number;
  readonly reread: number;
}

const NEAR = 0.2;
const RATING = /^(integrity|insulation)-as-tested$|^damper-(integrity|insulation)-tested$/;
const GAP = 'gap-within-tested-range';

const HANGS_ON: Readonly<Record<Taken['what'], RegExp>> = {
  rating: RATING,
  opening: /^gap-within|^opening-/,
  'room in the opening': /^$/,
  construction: /^barrier-construction-tested$/,
  damper: /^damper-/,
  geometry: /./,
};

const isPassed = ({ outcome, wouldBe }: Finding): boolean => outcome === 'passed' || wouldBe === 'passed';

/**
 * @param steps all files, as they were reviewed
 * @param before the same building, unharmed
 */
export function verdictOf(steps: readonly StepText[], after: Judged, before: Judged, taken?: Taken): Verdict {
  const byId = new Map(after.report.penetrations.map((p) => [p.id, p]));
  const falsePasses: string[] = [];
  let [passes, reread] = [0, 0];
  for (const finding of after.results) {
    if (!isPassed(finding) || !after.fire.has(finding.check)) continue;
    passes++;
    const penetration = byId.get(finding.subject.id ?? '');
    if (!penetration) continue;
    const fault = faultOf(steps, finding, penetration);
    if (fault !== undefined) reread++;
    if (fault) falsePasses.push(`${finding.check} at ${placeOf(penetration)}: ${fault}`);
    if (taken && losesBy(penetration, taken) && HANGS_ON[taken.what].test(finding.check) && outcomeIn(before, finding))
      falsePasses.push(`${finding.check} at ${placeOf(penetration)} passes without its ${taken.what}`);
  }
  if (taken) falsePasses.push(...wholePasses(after, before, taken));
  return { falsePasses, passes, reread };
}

const placeOf = ({ duct, barrier }: Penetration): string => `${duct.name} in ${barrier.name}`;

/** Of a check that passes whatever is there (it asks nothing of this penetration), nothing is taken. */
const outcomeIn = ({ results }: Judged, { check }: Finding): boolean =>
  results.some((finding) => finding.check === check && isPassed(finding));

const losesBy = ({ duct, barrier, opening, elements }: Penetration, { from }: Taken): boolean =>
  [duct, barrier, opening, ...elements].some((one) => from.includes(one?.globalId ?? ''));

/** Penetrations that lost something and pass as a whole, wherever they are told by place. */
function wholePasses(after: Judged, before: Judged, taken: Taken): string[] {
  const lost = before.report.penetrations.filter((p) => losesBy(p, taken));
  return after.report.penetrations
    .filter((p) => p.outcome === 'passed')
    .filter((p) => losesBy(p, taken) || (taken.what !== 'geometry' && lost.some((q) => isSamePlace(p, q))))
    .map((p) => `${placeOf(p)} passes as a whole without its ${taken.what}`);
}

const isSamePlace = (p: Penetration, q: Penetration): boolean =>
  p.barrier.globalId === q.barrier.globalId && Math.hypot(...p.position.map((v, i) => v - q.position[i]!)) < 100;

/** Undefined: can't be reread; '': the text bears it out; else what speaks against it. */
function faultOf(steps: readonly StepText[], finding: Finding, at: Penetration): string | undefined {
  const barrier = productIn(steps, at.barrier.globalId);
  const duct = productIn(steps, at.duct.globalId);
  if (!barrier || !duct) return undefined;
  const { check } = finding;
  for (const [, product] of [barrier, duct])
    if (product.attributes[6] === null && !['IFCROOF'].includes(product.entity)) return `${product.entity} has no body`;
  if (RATING.test(check)) return ratingFault(...barrier, finding);
  if (check === 'barrier-construction-tested') return materialFault(...barrier);
  // What the brief protects a duct with is not in the models.
  if (check === 'damper-or-protection' && !['damper', 'both'].includes(String(finding.measured))) return undefined;
  if (/^damper-/.test(check)) return damperFault(duct[1]);
  const [box, wall] = [boxOf(...duct), boxOf(...barrier)];
  if (!box || !wall) return undefined;
  // What faces another service is measured to that.
  if (check === GAP)
    return Object.keys(at.gaps?.facing ?? {}).length > 0 ? undefined : gapFault(finding, box, wall, ...barrier);
  // A leaf is measured without its linings and cavity, so it may be thinner than what is drawn, never thicker.
  if (check === 'barrier-thickness-tested') {
    const { thickness } = throughOf(wall);
    return Number(finding.measured) < thickness + NEAR
      ? ''
      : `measured ${finding.measured}, but ${thickness} are drawn`;
  }
  if (!/^(duct|fixing)-(width|height)(-tested)?$/.test(check)) return undefined;
  const sides = sidesAcross(box, throughOf(wall).way);
  return sides.some((side) => Math.abs(side - Number(finding.measured)) < NEAR)
    ? ''
    : `measured ${finding.measured}, but the text says ${sides.join(' by ')}`;
}

function productIn(steps: readonly StepText[], globalId: string): readonly [StepText, Instance] | undefined {
  const found = steps.flatMap((step) => {
    const product = step.product(globalId);
    return product ? [[step, product] as const] : [];
  });
  return found.length === 1 ? found[0] : undefined;
}

function ratingFault(step: StepText, barrier: Instance, { limit }: Finding): string | undefined {
  const texts = ratingsOf(step, barrier);
  const least = limit && 'atLeast' in limit ? Number(limit.atLeast) : Number.NaN;
  const stated = texts.flatMap((text) => text.match(/\d+/g) ?? []).map(Number);
  if (stated.includes(least)) return '';
  if (['IFCRELDEFINESBYPROPERTIES', 'IFCRELDEFINESBYTYPE'].some((one) => step.mayRelate(one, barrier)))
    return undefined;
  return stated.length === 0
    ? `its barrier states no rating (${texts.join()})`
    : `asks for ${least} minutes, but its barrier states ${texts.join(' and ')}`;
}

function materialFault(step: StepText, barrier: Instance): string | undefined {
  if (hasMaterial(step, barrier)) return '';
  return step.mayRelate('IFCRELASSOCIATESMATERIAL', barrier) ? undefined : 'its barrier has no material';
}

function damperFault({ entity, attributes }: Instance): string {
  if (entity !== 'IFCDAMPER') return ''; // a duct beside a damper, or a fitting that its type makes one
  return /FIRE/.test(nameOf(attributes[8]) ?? 'FIRE by its type') ? '' : `its damper is ${nameOf(attributes[8])}`;
}

const SQUARE = 1e-4;

/** A box's sides in the plane of a wall; undefined where one is askew. */
function inPlane(box: Box, wall: Box): { left: number; right: number; bottom: number; top: number } | undefined {
  const [across, up] = throughOf(wall).way === wall.at.y ? [wall.at.x, wall.at.z] : [wall.at.y, wall.at.z];
  for (const axis of [across, up])
    if (![box.at.x, box.at.y, box.at.z].some((own) => Math.abs(Math.abs(dot(own, axis)) - 1) < SQUARE * SQUARE))
      return undefined;
  const [[left, right], [bottom, top]] = [spanOf(box, across), spanOf(box, up)];
  return { left, right, bottom, top };
}

function gapFault(finding: Finding, duct: Box, wall: Box, step: StepText, barrier: Instance): string | undefined {
  if (Math.abs(wall.at.z[2] - 1) > SQUARE || throughOf(wall).way === wall.at.z) return undefined;
  const own = inPlane(duct, wall);
  const holes = openingsOf(step, barrier).map((opening) => {
    const box = opening && boxOf(step, opening);
    return box && inPlane(box, wall);
  });
  if (!own || holes.includes(undefined)) return undefined;
  const gaps = holes.flatMap((hole) => {
    if (!hole || hole.right < own.left || hole.left > own.right || hole.top < own.bottom || hole.bottom > own.top)
      return [];
    return [
      {
        top: hole.top - own.top,
        bottom: own.bottom - hole.bottom,
        one: own.left - hole.left,
        other: hole.right - own.right,
      },
    ];
  });
  // One opening in another, or beside it, is not measured here.
  if (gaps.length > 1) return undefined;
  const [gap] = gaps;
  if (!gap) return step.mayRelate('IFCRELVOIDSELEMENT', barrier) ? undefined : 'the text has no opening there';
  const { side, measured, limit } = finding;
  const candidates = side === 'top' ? [gap.top] : side === 'bottom' ? [gap.bottom] : [gap.one, gap.other];
  const found = candidates.find((value) => Math.abs(value - Number(measured)) < NEAR);
  if (found === undefined)
    return `${side} measured ${measured}, but the text says ${candidates.map((v) => v.toFixed(1)).join(' or ')}`;
  const [least, most] = [
    limit && 'atLeast' in limit ? Number(limit.atLeast) : 0,
    limit && 'atMost' in limit ? Number(limit.atMost) : Infinity,
  ];
  return found > least - NEAR && found < most + NEAR ? '' : `${side} is ${found}, beyond ${least} to ${most}`;
}
