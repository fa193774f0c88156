/** The opening that a crossing goes through: an opening element of the barrier, or a hole in its own body. */
import { fitShape, sizeAlong } from '../geometry/fit.js';
import { raised } from '../geometry/frame.js';
import { area, bounds, contains } from '../geometry/polygon.js';
import { facesOf } from '../geometry/round-faces.js';
import { cutBodies, extent } from '../geometry/section.js';
import { length2, sub2 } from '../geometry/vector.js';
import type { Body, Opening, OpeningFacts, Polygon, Vec2 } from '../model.js';
import { CONTACT } from '../tolerances.js';
import type { GrossBody } from './gross-body.js';
import { type Curve, faceHeights, inSolid, type Plate } from './plates.js';
import { cutRound } from './round-plates.js';

export interface FoundOpening {
  /** Undefined for a hole in the barrier's body. */
  readonly element: Opening | undefined;
  /** Its outline on a cutting plane of the plate; undefined where there is none near the duct. */
  outlineAt(height: number, centre: Vec2): Polygon | undefined;
}

/** The smallest opening that goes right through and has the duct's centre in it at the barrier's middle. */
export function findOpening(gross: GrossBody, plate: Plate, centre: Vec2): FoundOpening | undefined {
  const elements = gross.barrier.openings.map((opening) => openingElement(opening, plate));
  const hole: FoundOpening = {
    element: undefined,
    outlineAt: (height, at) => nearest(gross.cut(plate, height).holes, at),
  };
  const through = [...elements, hole]
    .map((opening) => ({ opening, outline: opening.outlineAt(inSolid(plate, 0), centre) }))
    .filter(({ outline }) => outline !== undefined && contains(outline, centre))
    .filter(({ opening }) => faceHeights(plate).every((height) => opening.outlineAt(height, centre) !== undefined));
  through.sort((a, b) => area(a.outline!) - area(b.outline!));
  return through[0]?.opening ?? throughParts(elements, plate, centre);
}

/** The parts of one wall may each have an opening of their own: where every part has one, they are passed as one. */
function throughParts(elements: readonly ElementOpening[], plate: Plate, centre: Vec2): FoundOpening | undefined {
  const passing = elements
    .map((opening) => ({ opening, reach: reachIn(plate, opening.element) }))
    .filter(({ opening, reach: [from, to] }) => {
      const outline = to - from > CONTACT ? opening.outlineAt((from + to) / 2, centre) : undefined;
      return outline !== undefined && contains(outline, centre);
    })
    .sort((a, b) => a.reach[0] - b.reach[0]);
  if (passing.length < 2) return undefined;
  for (const [from, to] of plate.solid ?? [[-plate.thickness / 2, plate.thickness / 2]]) {
    let open = from;
    for (const { reach } of passing) if (reach[0] <= open + CONTACT) open = Math.max(open, reach[1]);
    if (open < to - CONTACT) return undefined;
  }
  const at = (height: number): FoundOpening => {
    const apart = passing.map(({ reach: [from, to] }) => Math.max(from - height, height - to, 0));
    return passing[apart.indexOf(Math.min(...apart))]!.opening;
  };
  return {
    element: at(0).element,
    outlineAt: (height, around) => at(height).outlineAt(inSolid(plate, height), around),
  };
}

/** The part of the thickness that an opening reaches. */
function reachIn({ frame, thickness }: Plate, { bodies }: Opening): readonly [number, number] {
  const [from, to] = extent(bodies, frame.origin, frame.z);
  return [Math.max(from, -thickness / 2), Math.min(to, thickness / 2)];
}

interface ElementOpening extends FoundOpening {
  readonly element: Opening;
}

function openingElement(opening: Opening, plate: Plate): ElementOpening {
  const cut = (height: number) => openingCut(opening.bodies, plate, height);
  return {
    element: opening,
    outlineAt(height, centre) {
      const here = cut(height);
      // An opening drawn a hair short of the face still goes through.
      return nearest(here.length > 0 ? here : cut(height - Math.sign(height) * CONTACT), centre);
    },
  };
}

/** Outlines of an opening on a cutting plane of the plate; on a cylinder where it is bent like its wall. */
export function openingCut(bodies: readonly Body[], plate: Plate, height: number): readonly Polygon[] {
  const { curve } = plate;
  if (curve && followsCurve(bodies, curve)) return cutRound(bodies, plate, curve, height).outers;
  return cutBodies(bodies, raised(plate.frame, height)).outers;
}

/** Bent like its wall; most openings are straight, in curved walls too. */
const followsCurve = (bodies: readonly Body[], { centre }: Curve): boolean =>
  facesOf(bodies).round.some((faces) => length2(sub2(faces.centre, centre)) < CONTACT);

/** The outline with the point in it, else the one whose box is nearest to it: oblique ducts leave the point behind. */
function nearest(outlines: readonly Polygon[], at: Vec2): Polygon | undefined {
  const distance = (p: Polygon): number => {
    if (contains(p, at)) return 0;
    const { min, max } = bounds([p]);
    return Math.hypot(Math.max(min[0] - at[0], 0, at[0] - max[0]), Math.max(min[1] - at[1], 0, at[1] - max[1]));
  };
  return [...outlines].sort((a, b) => distance(a) - distance(b))[0];
}

export function openingFacts(found: FoundOpening, outline: Polygon, model: string): OpeningFacts {
  const fit = fitShape(outline);
  const shape = fit.shape === 'rectangular' || fit.shape === 'circular' ? fit.shape : 'other';
  const box = bounds([outline]);
  const [width, height] =
    shape === 'other'
      ? [box.max[0] - box.min[0], box.max[1] - box.min[1]]
      : [sizeAlong(fit, [1, 0]), sizeAlong(fit, [0, 1])];
  return {
    model: found.element?.model ?? model,
    globalId: found.element?.globalId ?? null,
    shape,
    width,
    height,
    from: found.element ? 'element' : 'hole',
  };
}
