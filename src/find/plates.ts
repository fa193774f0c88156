/**
 * A barrier as plates: pairs of its own parallel faces with solid between. A duct passes a barrier by passing a plate,
 * in at one face and out at the other. Holes in the body are filled for this: a well-drawn model has a hole exactly
 * where the duct passes.
 */
import { type Face, flatFaces } from '../geometry/faces.js';
import { raised, toPlane } from '../geometry/frame.js';
import { area, contains, pointEdgeDistance } from '../geometry/polygon.js';
import { cutBodies, extent, type Region } from '../geometry/section.js';
import {
  add,
  cross,
  dot,
  lineAngle,
  negate,
  perpendicularPart,
  scale,
  sub,
  unit,
  X,
  Y,
  Z,
  ZERO,
} from '../geometry/vector.js';
import type { Barrier, Frame, Polygon, Vec3 } from '../model.js';
import { CONTACT, FACE_INSET, GRAZING, PARALLEL } from '../tolerances.js';

/**
 * Both faces of a barrier at one place. `frame` is the frame of the elevation drawing: x to the right, y up, z along the
 * normal; its origin is on the middle plane, the faces at z = ± thickness / 2.
 */
export interface Plate {
  readonly frame: Frame;
  readonly thickness: number;
}

/** Faces smaller than this share of the largest are chamfers and steps of the edge, no faces to pass through. */
const LEAST_FACE_SHARE = 0.002;

/** A face plane that cuts less than this share of the middle's cut touches a curved wall along one facet only. */
const LEAST_FLAT_SHARE = 0.6;

interface FaceDirection {
  readonly normal: Vec3;
  /** Ascending: where along the normal faces lie. */
  readonly offsets: readonly number[];
}

export class GrossBody {
  private readonly directions: readonly FaceDirection[];
  private readonly cuts = new Map<string, Region>();

  constructor(readonly barrier: Barrier) {
    this.directions = faceDirections(flatFaces(barrier.bodies), barrier.kind === 'wall');
  }

  /** The gross body's cut with the plate's frame at a height along its normal; holes are listed, not cut out. */
  cut(plate: Plate, s: number): Region {
    const { z, origin } = plate.frame;
    const key = [...z, dot(origin, z) + s].map((v) => v.toFixed(4)).join();
    let region = this.cuts.get(key);
    if (!region) {
      region = cutBodies(this.barrier.bodies, raised(plate.frame, s));
      this.cuts.set(key, region);
    }
    return region;
  }

  outline = (plate: Plate, s: number): readonly Polygon[] => this.cut(plate, s).outers;

  /** Every plate that the line through `at` along `direction` passes, in no order. */
  platesOn(at: Vec3, direction: Vec3): Plate[] {
    return this.directions.flatMap((d) => {
      if (lineAngle(direction, d.normal) > 90 - GRAZING) return [];
      return this.solidStretches(d, at, direction).filter((plate) => this.isThinnest(plate, at, direction));
    });
  }

  /** Every plate that has this point between, or in line with, its faces; for pieces without a direction of their own. */
  platesNear = (at: Vec3): Plate[] => this.directions.flatMap((d) => this.platesOn(at, d.normal));

  /** Thickness at the middle of the body; undefined where that is not solid (a curved wall, an L). */
  nominalThickness(): number | undefined {
    const [x, y, z] = [X, Y, Z].map((axis) => extent(this.barrier.bodies, ZERO, axis));
    const middle: Vec3 = [(x![0] + x![1]) / 2, (y![0] + y![1]) / 2, (z![0] + z![1]) / 2];
    // A plate in line with the middle may lie elsewhere: the rebated end of a wall, a step.
    const found = this.platesNear(middle).filter(
      ({ frame, thickness }) => Math.abs(dot(sub(middle, frame.origin), frame.z)) <= thickness / 2,
    );
    return found.length > 0 ? Math.min(...found.map((p) => p.thickness)) : undefined;
  }

  /**
   * Heights between `from` and `to` at which an outline must lie within the barrier: the faces, the middle and the ends
   * of the stretch; of a curved wall, whose faces leave their planes, the middle of the stretch alone.
   */
  testHeights(p: Plate, from: number, to: number): readonly number[] {
    const [low, high] = faceHeights(p);
    const middle = (from + to) / 2;
    const sizeAt = (s: number) => this.outline(p, s).reduce((sum, o) => sum + area(o), 0);
    const least = sizeAt(0) * LEAST_FLAT_SHARE;
    if (sizeAt(low) < least || sizeAt(high) < least) return [middle];
    return [low, 0, high, from + FACE_INSET, middle, to - FACE_INSET].filter((s) => s >= from && s <= to);
  }

  /** Runs of neighbouring face intervals that are solid where the line passes them. */
  private solidStretches(d: FaceDirection, at: Vec3, direction: Vec3): Plate[] {
    const slope = dot(direction, d.normal);
    const pointAt = (offset: number): Vec3 => add(at, scale(direction, (offset - dot(at, d.normal)) / slope));
    const plates: Plate[] = [];
    let start: number | undefined;
    for (let i = 0; i + 1 < d.offsets.length; i++) {
      const [low, high] = [d.offsets[i]!, d.offsets[i + 1]!];
      const between = plate(d.normal, low, high, this.barrier.kind);
      const solid = this.isInside(between, pointAt((low + high) / 2));
      if (solid) start ??= low;
      if (start !== undefined && (!solid || i + 2 === d.offsets.length)) {
        plates.push(plate(d.normal, start, solid ? high : low, this.barrier.kind));
        start = undefined;
      }
    }
    return plates;
  }

  private isInside(between: Plate, p: Vec3): boolean {
    const q = toPlane(between.frame, p);
    return this.outline(between, 0).some((o) => contains(o, q) || pointEdgeDistance(q, o) < FACE_INSET);
  }

  /** A line along a wall's length passes its two ends: solid too, but no way through the wall. */
  private isThinnest(candidate: Plate, at: Vec3, direction: Vec3): boolean {
    const n = candidate.frame.z;
    const t = dot(sub(candidate.frame.origin, at), n) / dot(direction, n);
    const middle = add(at, scale(direction, t));
    return this.directions.every(
      (d) =>
        lineAngle(d.normal, n) < PARALLEL ||
        this.solidStretches(d, middle, d.normal)
          .filter((p) => Math.abs(dot(sub(middle, p.frame.origin), p.frame.z)) <= p.thickness / 2)
          .every((p) => p.thickness >= candidate.thickness * 0.9),
    );
  }
}

function faceDirections(faces: readonly Face[], wall: boolean): FaceDirection[] {
  const largest = faces[0]?.area ?? 0;
  const groups: { normal: Vec3; offsets: number[] }[] = [];
  for (const face of faces) {
    if (face.area < largest * LEAST_FACE_SHARE) break;
    const group = groups.find((g) => lineAngle(g.normal, face.normal) < PARALLEL);
    if (!group) {
      const towards = drawnNormal(face.normal, wall);
      groups.push({ normal: towards, offsets: [dot(towards, face.normal) > 0 ? face.offset : -face.offset] });
    } else {
      const offset = dot(group.normal, face.normal) > 0 ? face.offset : -face.offset;
      if (group.offsets.every((o) => Math.abs(o - offset) > CONTACT)) group.offsets.push(offset);
    }
  }
  return groups
    .filter((g) => g.offsets.length > 1)
    .map((g) => ({ normal: g.normal, offsets: g.offsets.sort((a, b) => a - b) }));
}

/** Which of the two normals the elevation is drawn along: see the contract, "Gaps". */
function drawnNormal(n: Vec3, wall: boolean): Vec3 {
  if (!wall) return n[2] > 0 || (n[2] === 0 && n[0] < 0) ? negate(n) : n; // on plan one looks down
  const larger = Math.abs(n[0]) >= Math.abs(n[1]) - 1e-9 ? n[0] : n[1];
  return larger < 0 ? negate(n) : n;
}

export function plate(normal: Vec3, low: number, high: number, kind: Barrier['kind']): Plate {
  return { frame: elevationFrame(scale(normal, (low + high) / 2), normal, kind === 'wall'), thickness: high - low };
}

/** Right-hand side and up as seen by someone who looks along the normal; on plan +Y is up. */
function elevationFrame(origin: Vec3, normal: Vec3, wall: boolean): Frame {
  let up = perpendicularPart(wall ? Z : Y, normal);
  if (Math.hypot(...up) < 1e-6) up = perpendicularPart(wall ? Y : Z, normal);
  up = unit(up);
  return { origin, x: unit(cross(normal, up)), y: up, z: normal };
}

/** Heights, along the plate's normal, of the cutting planes that stand for its two faces. */
export const faceHeights = (p: Plate): readonly [number, number] => [
  -p.thickness / 2 + FACE_INSET,
  p.thickness / 2 - FACE_INSET,
];
