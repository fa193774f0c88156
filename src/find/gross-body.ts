/**
 * A barrier as plates: pairs of its own parallel (or concentric) faces with solid between. A duct passes a barrier by
 * passing a plate, in at one face and out at the other. Holes in the body are filled for this: a well-drawn model has a
 * hole exactly where the duct passes.
 */
import type { Face } from '../geometry/faces.js';
import { fromPlane, raised, toPlane } from '../geometry/frame.js';
import { area, contains, interiorPoint, pointEdgeDistance } from '../geometry/polygon.js';
import { facesOf, type RoundFaces } from '../geometry/round-faces.js';
import { cutBodies, extent, type Region } from '../geometry/section.js';
import { withSlits } from '../geometry/slits.js';
import { add, dot, length, lineAngle, scale, sub, X, Y, Z, ZERO } from '../geometry/vector.js';
import type { Barrier, Body, Polygon, Vec3 } from '../model.js';
import { CAVITY, CONTACT, FACE_INSET, GRAZING, PARALLEL } from '../tolerances.js';
import {
  drawnNormal,
  elevationFrame,
  faceHeights,
  headSteps,
  inSolid,
  type Plate,
  plate,
  type Stretch,
} from './plates.js';
import { cutRound, meetings, radial } from './round-plates.js';

/** Faces smaller than this share of the largest are chamfers and steps of the edge, no faces to pass through. */
const LEAST_FACE_SHARE = 0.002;

/** A face plane that cuts less than this share of the middle's cut touches a rounded body along a strip only. */
const LEAST_FLAT_SHARE = 0.6;

interface FaceDirection {
  readonly normal: Vec3;
  /** Ascending: where along the normal faces lie. */
  readonly offsets: readonly number[];
}

export class GrossBody {
  private readonly bodies: readonly Body[];
  private readonly directions: readonly FaceDirection[];
  private readonly round: readonly RoundFaces[];
  private readonly cuts = new Map<string, Region>();

  constructor(readonly barrier: Barrier) {
    this.bodies = barrier.kind === 'wall' ? barrier.bodies.map(withRoom) : barrier.bodies;
    const { flat, round } = facesOf(this.bodies);
    this.directions = faceDirections(flat, barrier.kind === 'wall');
    this.round = barrier.kind === 'wall' ? round : [];
  }

  /** Its faces stand at more than two depths somewhere, so that one duct may pass more than one thickness. */
  get isStepped(): boolean {
    return this.directions.some(({ offsets }) => offsets.length > 2);
  }

  /** The gross body's cut with the plate's frame at a height along its normal; holes are listed, not cut out. */
  cut(plate: Plate, height: number): Region {
    const { z, origin } = plate.frame;
    const s = inSolid(plate, height);
    const place = plate.curve ? [...origin, s] : [dot(origin, z) + s];
    const key = [...z, ...place].map((v) => v.toFixed(4)).join();
    let region = this.cuts.get(key);
    if (!region) {
      region = plate.curve
        ? cutRound(this.bodies, plate, plate.curve, s)
        : cutBodies(this.bodies, raised(plate.frame, s));
      this.cuts.set(key, region);
    }
    return region;
  }

  outline = (plate: Plate, s: number): readonly Polygon[] => this.cut(plate, s).outers;

  /** Every plate that the line through `at` along `direction` passes, in no order. */
  platesOn(at: Vec3, direction: Vec3): Plate[] {
    const flat = this.directions.flatMap((d) =>
      isGrazing(direction, d.normal) ? [] : this.solidStretches(d, at, direction),
    );
    const round = this.round.flatMap((r) => this.roundPlates(r, at, direction));
    return [...flat.filter((p) => this.isThinnest(p, at, direction)), ...round];
  }

  /** Every plate that has this point between, or in line with, its faces; for pieces without a direction of their own. */
  platesNear = (at: Vec3): Plate[] => [
    ...this.directions.flatMap((d) => this.platesOn(at, d.normal)),
    ...this.round.flatMap((r) => this.roundPlates(r, at, radial(r, at))),
  ];

  /** Upright planes along the middle of a wall: one for each straight run, one every few steps of a curved one. */
  sheets(): { readonly plate: Plate; readonly width: number | undefined }[] {
    const places = [middleOf(this.bodies), ...this.bodies.map(insideOf)];
    const flat = places.flatMap((at) => this.platesNear(at)).filter((p) => !p.curve && Math.abs(p.frame.z[2]) < 0.1);
    const thin = flat.filter((p, i) => flat.findIndex((q) => isSameSheet(p, q)) === i);
    const round = this.round.flatMap((faces) => {
      const radius = (faces.radii[0]! + faces.radii.at(-1)!) / 2;
      const n = Math.max(8, headSteps(2 * Math.PI * radius));
      const [, , z] = middleOf(this.bodies);
      return Array.from({ length: n }, (_, i) => {
        const angle = (2 * Math.PI * i) / n;
        const out: Vec3 = [Math.cos(angle), Math.sin(angle), 0];
        const at: Vec3 = [faces.centre[0] + out[0] * radius, faces.centre[1] + out[1] * radius, z];
        return { plates: this.roundPlates(faces, at, out), at, width: (2 * Math.PI * radius) / n };
      }).flatMap(({ plates, at, width }) => {
        const plate = plates.find((p) => length(sub(p.frame.origin, at)) < p.thickness);
        return plate ? [{ plate, width }] : [];
      });
    });
    return [...thin.map((plate) => ({ plate, width: undefined })), ...round];
  }

  /** Thickness at the middle of the body, or of its parts; undefined where nothing there has two parallel faces. */
  nominalThickness(): number | undefined {
    const { bodies } = this;
    for (const at of [middleOf(bodies), ...bodies.map(insideOf)]) {
      // A plate in line with the middle may lie elsewhere: the rebated end of a wall, a step.
      const found = this.platesNear(at).filter(
        ({ frame, thickness }) => Math.abs(dot(sub(at, frame.origin), frame.z)) <= thickness / 2,
      );
      if (found.length > 0) return Math.min(...found.map((p) => p.thickness));
    }
    return undefined;
  }

  /**
   * Heights between `from` and `to` at which an outline must lie within the barrier: the faces, the middle and the ends
   * of the stretch; of a rounded body, whose faces leave their planes, the middle of the stretch alone.
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
    const solid = intervals(d.offsets).filter(([low, high]) =>
      this.isInside(plate(d.normal, [[low, high]], this.barrier.kind), pointAt((low + high) / 2)),
    );
    return this.asOneWall(joined(solid)).map((stretches) => plate(d.normal, stretches, this.barrier.kind));
  }

  /** The parts of one wall stand round its cavity; a single body that turns back is passed twice. */
  private asOneWall(stretches: readonly Stretch[]): [Stretch, ...Stretch[]][] {
    const walls: [Stretch, ...Stretch[]][] = [];
    for (const stretch of stretches) {
      const last = walls.at(-1);
      const isNear = last && this.bodies.length > 1 && stretch[0] - last.at(-1)![1] <= CAVITY;
      if (isNear) last.push(stretch);
      else walls.push([stretch]);
    }
    return walls;
  }

  private roundPlates(faces: RoundFaces, at: Vec3, direction: Vec3): Plate[] {
    return [0, 1].flatMap((side) => {
      const plateOf = ([low, high]: Stretch): Plate | undefined => {
        const radius = (low + high) / 2;
        const origin = meetings(faces, radius, at, direction)[side];
        if (!origin) return undefined;
        const away = radial(faces, origin);
        const normal = drawnNormal(away, true);
        if (isGrazing(direction, normal)) return undefined;
        const outward = dot(away, normal) > 0 ? 1 : -1;
        const curve = { centre: faces.centre, radius, outward, chordError: faces.chordError } as const;
        return { frame: elevationFrame(origin, normal, true), thickness: high - low, curve };
      };
      const solid = intervals(faces.radii).filter((interval) => {
        const found = plateOf(interval);
        return found !== undefined && this.isInside(found, found.frame.origin);
      });
      return joined(solid).flatMap((stretch) => plateOf(stretch) ?? []);
    });
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
    const holdsMiddle = (p: Plate) => Math.abs(dot(sub(middle, p.frame.origin), p.frame.z)) <= p.thickness / 2;
    const across = [
      ...this.directions
        .filter((d) => lineAngle(d.normal, n) >= PARALLEL)
        .flatMap((d) => this.solidStretches(d, middle, d.normal)),
      ...this.round.flatMap((r) => this.roundPlates(r, middle, radial(r, middle))),
    ];
    return across.filter(holdsMiddle).every((p) => p.thickness >= candidate.thickness * 0.9);
  }
}

/** A hole in the plan of a wall is the room that the wall goes round, not a hole for a duct. */
const withRoom = (body: Body): Body =>
  body.kind === 'prism' && body.voids.length > 0 && lineAngle(body.sweep, Z) < PARALLEL
    ? { ...body, outline: withSlits(body.outline, body.voids), voids: [] }
    : body;

const isSameSheet = (a: Plate, b: Plate): boolean =>
  lineAngle(a.frame.z, b.frame.z) < PARALLEL && Math.abs(dot(sub(a.frame.origin, b.frame.origin), a.frame.z)) < CONTACT;

const isGrazing = (direction: Vec3, normal: Vec3): boolean => lineAngle(direction, normal) > 90 - GRAZING;

const intervals = (offsets: readonly number[]): Stretch[] =>
  offsets.slice(1).map((to, i): Stretch => [offsets[i]!, to]);

/** Neighbouring intervals that share an end as one. */
function joined(solid: readonly Stretch[]): Stretch[] {
  const out: Stretch[] = [];
  for (const [from, to] of solid) {
    const last = out.at(-1);
    if (last && last[1] === from) out[out.length - 1] = [last[0], to];
    else out.push([from, to]);
  }
  return out;
}

function middleOf(bodies: readonly Body[]): Vec3 {
  const [x, y, z] = [X, Y, Z].map((axis) => extent(bodies, ZERO, axis));
  return [(x![0] + x![1]) / 2, (y![0] + y![1]) / 2, (z![0] + z![1]) / 2];
}

/** A point in a prism; of a mesh, beside the middle of its largest upright face, half-way up. */
function insideOf(body: Body): Vec3 {
  if (body.kind === 'prism') return add(fromPlane(body.frame, interiorPoint(body.outline)), scale(body.sweep, 0.5));
  const middle = middleOf([body]);
  const { flat, round } = facesOf([body]);
  const largest = round[0]?.faces[0] ?? flat.find(({ trace }) => trace !== undefined);
  if (!largest?.trace) return middle;
  const [[ax, ay], [bx, by]] = largest.trace;
  return sub([(ax + bx) / 2, (ay + by) / 2, middle[2]], scale(largest.normal, CONTACT));
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
