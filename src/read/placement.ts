/** Placements of products and items as affine maps into the file's own coordinates, in millimetres. */
import { type Affine, compose, WORLD } from '../geometry/frame.js';
import { cross, dot, length, perpendicularPart, scale, unit, X, Y, Z } from '../geometry/vector.js';
import type { Vec3 } from '../model.js';
import type { Line, StepFile } from './step-file.js';
import { list, num, nums, ref } from './value.js';

/** Raised with a sentence a person can read: why this placement could not be followed. */
export class BrokenPlacement extends Error {}

export class Placements {
  private readonly known = new Map<number, Affine>();

  constructor(
    private readonly file: StepFile,
    /** Millimetres per file unit. */
    private readonly mm: number,
  ) {}

  /** Where an IfcObjectPlacement puts its product. Places of places are kept, not those of single products. */
  object(id: number | undefined): Affine {
    if (id === undefined) return WORLD;
    const known = this.known.get(id);
    if (known) return known;
    const whole = ref(this.file.line(id)?.PlacementRelTo);
    return this.within(whole === undefined ? WORLD : (this.known.get(whole) ?? this.followed(whole, id)), id);
  }

  /** No recursion: real files nest deeply, broken ones in circles. */
  private followed(id: number, from: number): Affine {
    const chain: number[] = [];
    const seen = new Set([from]);
    let at: number | undefined = id;
    while (at !== undefined && !this.known.has(at)) {
      if (seen.has(at)) throw new BrokenPlacement(`placement #${at} refers to itself`);
      seen.add(at);
      chain.push(at);
      at = ref(this.file.line(at)?.PlacementRelTo);
    }
    let placed = at === undefined ? WORLD : this.known.get(at)!;
    for (const link of chain.reverse()) {
      placed = this.within(placed, link);
      this.known.set(link, placed);
    }
    return placed;
  }

  private within(whole: Affine, id: number): Affine {
    const line = this.file.line(id);
    if (!line) throw new BrokenPlacement(`placement #${id} is missing`);
    if (this.file.entity(id) !== 'IFCLOCALPLACEMENT')
      throw new BrokenPlacement(`placement #${id} is an ${this.file.entity(id)}, which is not read`);
    return compose(whole, this.axis3(ref(line.RelativePlacement)));
  }

  /** The same; undefined where it can't be followed, for what only loses a place by it. */
  objectIfWhole(id: number | undefined): Affine | undefined {
    try {
      return this.object(id);
    } catch (error) {
      if (error instanceof BrokenPlacement) return undefined;
      throw error;
    }
  }

  /** What is left out has a default; what is named and is not there may be anything. */
  private line(id: number): Line {
    const line = this.file.line(id);
    if (!line) throw new BrokenPlacement(`its placement names #${id}, which is missing`);
    return line;
  }

  point(id: number | undefined): Vec3 {
    const written = list(this.file.line(id ?? 0)?.Coordinates);
    const numbers = nums(written);
    const [x, y, z] = numbers;
    // A number out of range would otherwise let the next one take its place.
    if (numbers.length < written.length) throw new BrokenPlacement(`point #${id} has coordinates that are no numbers`);
    return [(x ?? 0) * this.mm, (y ?? 0) * this.mm, (z ?? 0) * this.mm];
  }

  direction(id: number | undefined): Vec3 | undefined {
    const [x, y, z] = nums(this.file.line(id ?? 0)?.DirectionRatios);
    if (x === undefined || y === undefined) return undefined;
    const d: Vec3 = [x, y, z ?? 0];
    return length(d) > 0 ? unit(d) : undefined;
  }

  /** IfcAxis2Placement3D (or 2D, flat); missing: no move. */
  axis3(id: number | undefined): Affine {
    const line = id === undefined ? undefined : this.line(id);
    if (!line) return WORLD;
    for (const part of [line.Location, line.Axis, line.RefDirection])
      if (ref(part) !== undefined) this.line(ref(part)!);
    const origin = this.point(ref(line.Location));
    if (this.file.entity(id!) === 'IFCAXIS2PLACEMENT2D') {
      const x = this.direction(ref(line.RefDirection)) ?? X;
      return { origin, x, y: [-x[1], x[0], 0], z: Z };
    }
    const z = this.direction(ref(line.Axis)) ?? Z;
    const hint = this.direction(ref(line.RefDirection)) ?? X;
    let x = perpendicularPart(hint, z);
    // Parallel Axis and RefDirection are not legal; the standard's own default for the axis is the least surprise.
    if (length(x) < 1e-9) x = perpendicularPart(Math.abs(dot(z, X)) < 0.9 ? X : Y, z);
    x = unit(x);
    return { origin, x, y: cross(z, x), z };
  }

  /** IfcCartesianTransformationOperator2D/3D, uniform or not; mirrored ones too. */
  operator(id: number | undefined): Affine {
    const line = id === undefined ? undefined : this.file.line(id);
    if (!line) return WORLD;
    const entity = this.file.entity(id!);
    const s1 = num(line.Scale) ?? 1;
    const s2 = entity.endsWith('NONUNIFORM') ? (num(line.Scale2) ?? s1) : s1;
    const s3 = entity.endsWith('NONUNIFORM') ? (num(line.Scale3) ?? s1) : s1;
    const a1 = this.direction(ref(line.Axis1));
    const a2 = this.direction(ref(line.Axis2));
    const origin = this.point(ref(line.LocalOrigin));
    if (entity.includes('OPERATOR2D')) {
      const x: Vec3 = a1 ?? (a2 ? [a2[1], -a2[0], 0] : X);
      const turned: Vec3 = [-x[1], x[0], 0];
      const y = a2 && dot(a2, turned) < 0 ? scale(turned, -1) : turned;
      return { origin, x: scale(x, s1), y: scale(y, s2), z: Z };
    }
    const z = this.direction(ref(line.Axis3)) ?? (a1 && a2 ? unit(cross(a1, a2)) : Z);
    let x = perpendicularPart(a1 ?? X, z);
    if (length(x) < 1e-9) x = perpendicularPart(Math.abs(dot(z, X)) < 0.9 ? X : Y, z);
    x = unit(x);
    const turned = cross(z, x);
    const y = a2 && dot(a2, turned) < 0 ? scale(turned, -1) : turned;
    return { origin, x: scale(x, s1), y: scale(y, s2), z: scale(z, s3) };
  }
}
