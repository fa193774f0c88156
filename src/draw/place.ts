/** The place that a picture shows: a penetration, or a spot on a barrier. Inner coordinates of the scene. */
import { flatFaces } from '../geometry/faces.js';
import { frameAlong } from '../geometry/frame.js';
import { bounds, boxCentre } from '../geometry/polygon.js';
import { dot, negate, sub, X, Z } from '../geometry/vector.js';
import type { ElementRef, Frame, Mesh, Polygon, Vec2, Vec3 } from '../model.js';
import type { ReportPenetration } from '../report/schema.js';
import { holds, type Scene, type SceneElement } from '../scene/scene.js';
import { holeIn } from './holes.js';

export interface Place {
  /** Origin in the barrier's middle; x to the right and y upwards along its face, z square to it. */
  readonly frame: Frame;
  /** Of the barrier, mm. */
  readonly thickness: number;
  readonly barriers: readonly ElementRef[];
  readonly ducts: readonly ElementRef[];
  readonly opening: ElementRef | null;
  /** The opening's edge, or the duct's where there is no opening; in the frame's x, y. Empty where nothing passes. */
  readonly rim: readonly Polygon[];
  /** How far the rim moves along x and y for each mm along z. */
  readonly rimSlope: Vec2;
}

/** Where the thickness is not known a wall of common size is assumed: it only shapes the picture. */
const ASSUMED_THICKNESS = 200;

export function placeOf(penetration: ReportPenetration, scene: Scene): Place {
  const { outlines, barrier, opening } = penetration;
  const { normal, right, up } = penetration.frame;
  const place = {
    frame: { origin: sub(penetration.position, scene.origin), x: right, y: up, z: normal },
    thickness: barrier.thickness ?? ASSUMED_THICKNESS,
    barriers: [barrier, ...barrier.leaves],
    ducts: penetration.elements,
    opening: opening && opening.globalId !== null ? { model: opening.model, globalId: opening.globalId } : null,
    rim: outlines.opening.length > 0 ? outlines.opening : outlines.duct,
  };
  return { ...place, rimSlope: rimSlopeOf(penetration, place, scene) };
}

/** An opening need not go square through a sloping roof, nor a duct square through a wall. */
function rimSlopeOf({ opening, duct, frame }: ReportPenetration, place: Omit<Place, 'rimSlope'>, scene: Scene): Vec2 {
  if (opening === null) {
    const along = duct.axis ? sub(duct.axis[1], duct.axis[0]) : frame.normal;
    const advance = dot(along, frame.normal);
    return Math.abs(advance) > 1e-6 ? [dot(along, frame.right) / advance, dot(along, frame.up) / advance] : [0, 0];
  }
  const carriers = elementsOf(place.opening ? [place.opening] : place.barriers, scene);
  const kind = place.opening ? 'outers' : 'holes';
  return holeIn(carriers.map(asBody), kind, place, boxCentre(place.rim))?.slope ?? [0, 0];
}

/**
 * A spot that no penetration belongs to, e.g. between two duct ends that face each other.
 *
 * @param at world
 * @returns undefined where none of the elements is a barrier of the scene
 */
export function placeOn(elements: readonly ElementRef[], at: Vec3, scene: Scene): Place | undefined {
  const listed = elementsOf(elements, scene);
  const barrier = listed.find((element) => element.kind === 'barrier');
  if (!barrier) return undefined;
  const [face] = flatFaces([asBody(barrier)]);
  if (!face) return undefined;
  const isFlat = Math.abs(dot(face.normal, Z)) > Math.SQRT1_2;
  // As a penetration's frame lies: on a wall y upwards and x to the right of who looks along z, on plan x to the right.
  const z = isFlat || dot(face.normal, [1, 1e-3, 0]) > 0 ? face.normal : negate(face.normal);
  const lying = frameAlong(sub(at, scene.origin), z, isFlat ? X : Z);
  const frame = isFlat ? lying : { ...lying, x: lying.y, y: lying.x };
  return {
    frame,
    thickness: ASSUMED_THICKNESS,
    barriers: [barrier],
    ducts: listed.filter((element) => element.kind !== 'barrier' && element.kind !== 'opening'),
    opening: null,
    rim: [],
    rimSlope: [0, 0],
  };
}

export const asBody = ({ positions, triangles }: SceneElement): Mesh => ({ kind: 'mesh', positions, triangles });

const same = (a: ElementRef, b: ElementRef): boolean => a.model === b.model && a.globalId === b.globalId;
export const isOneOf = (element: ElementRef, list: readonly ElementRef[]): boolean =>
  list.some((ref) => same(ref, element));
export const elementsOf = (refs: readonly ElementRef[], { elements }: Scene): SceneElement[] =>
  elements.filter((element) => isOneOf(element, refs));

/** Half the size of what the picture is about, along x and y, and its middle. */
export function rimBox({ rim }: Place): {
  readonly centre: readonly [number, number];
  readonly half: readonly [number, number];
} {
  if (rim.length === 0) return { centre: [0, 0], half: [300, 300] };
  const { min, max } = bounds(rim);
  return {
    centre: [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2],
    half: [(max[0] - min[0]) / 2, (max[1] - min[1]) / 2],
  };
}

/**
 * What is in the picture: the barrier with its openings, and all services near. At a spot where nothing passes, the
 * structure round it too: there it is what the barrier meets, or does not.
 */
export function seenAt(place: Place, scene: Scene): readonly SceneElement[] {
  const reach = place.rim.length === 0 ? STRUCTURE_NEAR : 0;
  return scene.elements.filter((element) => {
    if (element.kind === 'barrier')
      return isOneOf(element, place.barriers) || (reach > 0 && holds(element.box, place.frame.origin, reach));
    if (!holds(element.box, place.frame.origin, NEAR)) return false;
    return element.kind !== 'opening' || (element.host !== null && isOneOf(element.host, place.barriers));
  });
}

/** Services and openings nearer than this may be in the picture, mm. */
const NEAR = 2500;
const STRUCTURE_NEAR = 1500;
