/**
 * What a move of ductwork takes along. What is joined goes along, so that no joint is torn, until a straight piece that
 * lies along the way takes the move up by its length, or a flexible duct by its bends. What is fixed stops it.
 */
import { compareTexts, fileUnder, onceForEach } from '../collect.js';
import { nameOf } from '../element-refs.js';
import { distance, lineAngle, sub } from '../geometry/vector.js';
import type { AirElement, AirElementKind, Vec3 } from '../model.js';
import { JOINT, PARALLEL } from '../tolerances.js';

export interface JoinedAt {
  readonly elements: readonly [AirElement, AirElement];
  readonly at: Vec3;
}

export interface Ductwork {
  readonly joints: readonly JoinedAt[];
  /** Ends of the centre line of what is straight; undefined: bends, branches, equipment. */
  readonly axisOf: (element: AirElement) => readonly [Vec3, Vec3] | undefined;
}

export interface Spread {
  readonly moved: readonly AirElement[];
  /** With the end that goes along. */
  readonly stretched: readonly { readonly element: AirElement; readonly end: Vec3 }[];
}

/** Where more would have to go along it is another design, not a remedy. Common practice, no source. */
export const MOST_MOVED = 30;

const jointsByElement = onceForEach((joints: readonly JoinedAt[]) => {
  const jointsOf = new Map<AirElement, JoinedAt[]>();
  for (const joint of joints) for (const element of joint.elements) fileUnder(jointsOf, element, joint);
  return jointsOf;
});

/**
 * @param way direction of the move
 * @returns in words what stops it, where something does
 */
export function spreadOf(
  first: readonly AirElement[],
  way: Vec3,
  { joints, axisOf }: Ductwork,
  fixed: readonly AirElementKind[],
): Spread | string {
  const jointsOf = jointsByElement(joints);
  const moved = new Set(first);
  const stretched = new Map<AirElement, Vec3>();
  const takesUp = (element: AirElement, at: Vec3): boolean => {
    if (element.kind === 'flexible') return true;
    const axis = element.kind === 'segment' ? axisOf(element) : undefined;
    // A branch on the side of a main is not at its end.
    return (
      axis !== undefined &&
      lineAngle(sub(axis[1], axis[0]), way) < PARALLEL &&
      axis.some((end) => distance(end, at) <= JOINT)
    );
  };
  const edge = [...moved];
  for (let element = edge.pop(); element; element = edge.pop()) {
    if (moved.size > MOST_MOVED) return `more than ${MOST_MOVED} pieces would go along`;
    if (fixed.includes(element.kind)) return `${element.name || element.globalId} stands where it is`;
    for (const { elements, at } of jointsOf.get(element) ?? []) {
      const other = elements[0] === element ? elements[1] : elements[0];
      if (moved.has(other)) continue;
      const known = stretched.get(other);
      if (takesUp(other, at) && (known === undefined || distance(known, at) <= JOINT)) stretched.set(other, at);
      else {
        // Pulled at both ends it goes along as a whole.
        stretched.delete(other);
        moved.add(other);
        edge.push(other);
      }
    }
  }
  const byName = <T>(items: readonly T[], of: (item: T) => AirElement): T[] =>
    [...items].sort((a, b) => compareTexts(nameOf(of(a)), nameOf(of(b))));
  return {
    moved: byName([...moved], (one) => one),
    stretched: byName(
      [...stretched].map(([element, end]) => ({ element, end })),
      ({ element }) => element,
    ),
  };
}
