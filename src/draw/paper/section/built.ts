/** What a tested detail builds, as it lies in the cut: outlines in millimetres along and across the duct. */
import type { BuiltPart, Polygon, Vec2 } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import type { Cut } from './cut.js';

export type Hatch = 'packing' | 'sealant' | 'steel' | 'board' | 'wavy' | 'crossed' | 'diagonal';

export interface Shape {
  readonly hatch: Hatch;
  readonly outline: Polygon;
}

/** A part with all that is seen of it, and where its number points to; there may be nothing to see of it. */
export interface Drawn {
  /** Place in the order of the work; `protection`: what goes along the duct. */
  readonly part: number | 'protection';
  readonly shapes: readonly Shape[];
  readonly targets: readonly Vec2[];
}

export interface Built {
  readonly drawn: readonly Drawn[];
  /** On which faces, as they lie along the duct on paper: -1 the earlier. */
  readonly faces: readonly (-1 | 1)[];
  /** Whether nothing tells which face a detail of one face is built on. */
  readonly isFaceOpen: boolean;
  /** How far off the duct's outline frames begin. */
  readonly base: number;
  /** How far along the duct from a face, and across from its side, anything is built. */
  readonly reach: { readonly along: number; readonly across: number };
  /** Of the build-up, from the face, and how far across from the duct it ends; null: there is none of known length. */
  readonly buildUp: { readonly length: number; readonly outside: number } | null;
}

/** Of a bead whose size the document does not say, mm. Drawn only: the legend says that it is not stated. */
const UNSTATED_BEAD = 10;
/** Along the duct, mm: further than any sheet shows, where what is drawn ends. */
const ON_AND_ON = 1e6;
/** Beyond what is built at a face, mm: where the number of the protection points. */
const BEYOND = 45;

type Face = -1 | 1;
type Side = 0 | 1;
/** What lies on one face at one side of the duct, as far as it has been built. */
interface Corner {
  readonly face: Face;
  readonly side: Side;
}

export function builtIn(p: ReportPenetration, cut: Cut): Built {
  const { chosen } = p.treatment;
  const { faces, isFaceOpen } = builtFaces(p, cut);
  const nothing: Built = { drawn: [], faces, isFaceOpen, base: 0, reach: { along: 0, across: 0 }, buildUp: null };
  if (!chosen || !cut.duct) return nothing;
  return new Assembly(chosen, cut, faces, sheetInset(p)).built(isFaceOpen);
}

/** A detail of one face stands on the one that is not in a shaft. */
function builtFaces({ faces, treatment }: ReportPenetration, { sense }: Cut): Pick<Built, 'faces' | 'isFaceOpen'> {
  if (treatment.chosen?.faces !== 'one') return { faces: [-1, 1], isFaceOpen: false };
  const open = ([0, 1] as const).filter((i) => faces[i]?.shaft !== true);
  const first: Face = (open[0] ?? 0) === 0 ? -1 : 1;
  return { faces: [(first * sense) as Face], isFaceOpen: open.length !== 1 };
}

/** How far the sheet lies inside the outline. */
const sheetInset = ({ duct: { wall } }: ReportPenetration): number =>
  wall.outline === 'insulation' ? (wall.insulation?.thickness ?? 0) : 0;

type Chosen = NonNullable<ReportPenetration['treatment']['chosen']>;

class Assembly {
  /** Of the protection along the duct, across it; 0 where it has none or its thickness is not known. */
  private readonly protection: number;
  private readonly layer: number;
  private readonly layers: number;
  /** Across from the outline to what frames lie against. */
  private readonly base: number;
  /** How steep the duct makes what lies along it seem thicker. */
  private readonly stretch: number;
  private stack = 0;
  private legs = 0;
  private angleDepth = 0;
  private collar: { readonly width: number; readonly thickness: number } | undefined;
  private longest = 0;
  private widest = 0;
  private grown = 0;
  private buildUp: Built['buildUp'] = null;

  constructor(
    private readonly chosen: Chosen,
    private readonly cut: Cut,
    private readonly faces: readonly Face[],
    private readonly inset: number,
  ) {
    this.stretch = Math.hypot(1, cut.slope);
    this.layers = chosen.protection === 'fireResistingDuct' ? 0 : (chosen.layers ?? 0);
    this.layer = (chosen.layerThickness ?? 0) * this.stretch;
    this.protection = this.layer * this.layers;
    this.base = (chosen.gapDatum === 'passesThrough' ? this.protection : 0) - inset;
    this.grown = this.protection - inset;
  }

  built(isFaceOpen: boolean): Built {
    // Beads go by what is built before and after them, so that all sizes come first.
    for (const part of this.chosen.parts) this.measure(part);
    const parts = this.chosen.parts.map((part, i): Drawn => ({ part: i, ...this.drawnOf(part) }));
    const reach = { along: this.longest, across: Math.max(this.widest, this.grown) };
    return {
      ...{ faces: this.faces, isFaceOpen, base: this.base, reach, buildUp: this.buildUp },
      drawn: [{ part: 'protection', ...this.alongDuct() }, ...parts],
    };
  }

  private measure(part: BuiltPart): void {
    if (part.part === 'angle' && this.isInCut(part) && part.leg !== null && part.thickness !== null) {
      this.stack += part.thickness;
      this.legs = Math.max(this.legs, part.leg);
      this.angleDepth = Math.max(this.angleDepth, part.thickness);
      this.takes(part.leg, this.base + part.leg);
    }
    if (part.part === 'boardCollar' && part.width !== null && part.thickness !== null) {
      this.stack += part.thickness;
      this.collar = { width: part.width, thickness: part.thickness };
      this.takes(this.stack, this.base + part.width);
    }
    if (part.part === 'localBuildUp') {
      this.grown += this.layer * part.layers;
      if (part.length !== null) this.takes(part.length, this.grown);
    }
  }

  private takes(along: number, across: number): void {
    this.longest = Math.max(this.longest, along);
    this.widest = Math.max(this.widest, across);
  }

  private isInCut({ sides }: Extract<BuiltPart, { part: 'angle' }>): boolean {
    return sides === 'all' || sides === this.cut.pair;
  }

  /** From the outermost part on a face outwards; through the barrier where it goes through. */
  private alongDuct(): Omit<Drawn, 'part'> {
    if (this.layer === 0 || this.layers === 0) return { shapes: [], targets: [] };
    const end = ON_AND_ON;
    const [first] = this.faces;
    const place = this.longest + BEYOND;
    const stripes = Array.from({ length: this.layers }, (_, i) => i);
    const through = this.chosen.gapDatum === 'passesThrough';
    const shapes = stripes.flatMap((i) => {
      const [inner, outer] = [i * this.layer - this.inset, (i + 1) * this.layer - this.inset];
      return ([0, 1] as const).flatMap((side) =>
        through
          ? [this.strip(side, -end - this.cut.thickness / 2, end + this.cut.thickness / 2, inner, outer, i)]
          : this.faces.map((face) => {
              const [from, to] = [this.off(face, this.stack), this.off(face, end)];
              return this.strip(side, Math.min(from, to), Math.max(from, to), inner, outer, i);
            }),
      );
    });
    const target = this.point({ face: first ?? 1, side: 1 }, place, this.protection / 2 - this.inset);
    return { shapes, targets: [target] };
  }

  private drawnOf(part: BuiltPart): Omit<Drawn, 'part'> {
    switch (part.part) {
      case 'packing':
        return this.packing();
      case 'angle':
        return this.angle(part);
      case 'boardCollar':
        return this.boardCollar(part);
      case 'localBuildUp':
        return this.localBuildUp(part);
      case 'sealant':
        return this.sealant(part);
    }
  }

  /** Between the duct, or what goes through with it, and the opening; as deep as seals at the faces leave it. */
  private packing(): Omit<Drawn, 'part'> {
    const [from, to] = ([-1, 1] as const).map((face) => face * (this.cut.thickness / 2 - this.sealDepth(face)));
    const shapes = ([0, 1] as const).flatMap((side) => this.filled(side, from!, to!, 'packing'));
    const [, higher] = this.cut.gaps;
    const at = to! * 0.5;
    const middle = this.across(1, at, (this.base + (higher?.drawn ?? 0)) / 2);
    return { shapes, targets: shapes.length > 0 ? [[at, middle]] : [] };
  }

  private sealDepth(face: Face): number {
    const seals = this.chosen.parts.filter((one) => one.part === 'sealant' && one.at.includes('gap'));
    if (seals.length === 0 || !this.faces.includes(face)) return 0;
    return Math.min(this.cut.thickness / 2, Math.max(...seals.map((one) => beadOf(one))));
  }

  /** The gap at one side, between two places along the duct. */
  private filled(side: Side, from: number, to: number, hatch: Hatch): Shape[] {
    const gap = this.cut.gaps[side];
    if (!gap || gap.drawn <= this.base || to <= from) return [];
    const edge = this.cut.opening![side];
    const inner = (along: number): Vec2 => [along, this.across(side, along, this.base)];
    return [{ hatch, outline: [inner(from), inner(to), [to, edge], [from, edge]] }];
  }

  private angle(part: Extract<BuiltPart, { part: 'angle' }>): Omit<Drawn, 'part'> {
    const { leg, thickness } = part;
    if (leg === null || thickness === null || !this.isInCut(part)) return { shapes: [], targets: [] };
    const [b, t] = [this.base, thickness];
    const from = this.before(part);
    const corners = this.corners(part.faces);
    const shape = (corner: Corner): Shape => ({
      hatch: 'steel',
      outline: this.atFace(corner, [
        [from, b],
        [leg, b],
        [leg, b + t],
        [from + t, b + t],
        [from + t, b + leg],
        [from, b + leg],
      ]),
    });
    return { shapes: corners.map(shape), targets: this.pointed(corners, 0, from + t / 2, b + leg * 0.8) };
  }

  private boardCollar(part: Extract<BuiltPart, { part: 'boardCollar' }>): Omit<Drawn, 'part'> {
    const { width, thickness } = part;
    if (width === null || thickness === null) return { shapes: [], targets: [] };
    const [from, b] = [this.before(part), this.base];
    const corners = this.corners(part.faces);
    return {
      shapes: corners.map((corner) => ({
        hatch: 'board',
        outline: this.atFace(corner, rectangleOf(from, from + thickness, b, b + width)),
      })),
      targets: this.pointed(corners, 1, from + thickness / 2, b + width * 0.85),
    };
  }

  private localBuildUp(part: Extract<BuiltPart, { part: 'localBuildUp' }>): Omit<Drawn, 'part'> {
    const { length, layers, faces } = part;
    if (length === null || this.layer === 0) return { shapes: [], targets: [] };
    const earlier = this.partsBefore(part).reduce(
      (sum, one) => sum + (one.part === 'localBuildUp' ? one.layers : 0),
      0,
    );
    const under = this.layers + earlier;
    const corners = this.corners(faces);
    const from = this.chosen.gapDatum === 'passesThrough' && !this.collar ? 0 : this.stack;
    const shapes = corners.flatMap((corner) =>
      Array.from({ length: layers }, (_, i): Shape => {
        const [inner, outer] = [(under + i) * this.layer - this.inset, (under + i + 1) * this.layer - this.inset];
        return { hatch: this.hatchOf(under + i), outline: this.ofDuct(corner, from, length, inner, outer) };
      }),
    );
    const outside = (under + layers) * this.layer - this.inset;
    this.buildUp = { length, outside };
    return { shapes, targets: this.pointed(corners, 1, length * 0.7, outside - this.layer / 2) };
  }

  private sealant(part: Extract<BuiltPart, { part: 'sealant' }>): Omit<Drawn, 'part'> {
    const corners = this.corners(part.faces);
    const size = beadOf(part);
    const seams = part.at.map((seam, i): Omit<Drawn, 'part'> => {
      if (seam === 'gap') return this.gapSeal(corners, size, i);
      const place = this.seamAt(seam, part);
      if (!place) return { shapes: [], targets: [] };
      const [w, u, back] = place;
      return {
        shapes: corners.map((corner) => ({
          hatch: 'sealant',
          outline: this.atFace(corner, [
            [w, u],
            [w + size * back, u],
            [w, u + size],
          ]),
        })),
        targets: this.pointed(corners, i, w + (size * back) / 3, u + size / 3),
      };
    });
    return { shapes: seams.flatMap((one) => one.shapes), targets: seams.flatMap((one) => one.targets) };
  }

  private gapSeal(corners: readonly Corner[], size: number, turn: number): Omit<Drawn, 'part'> {
    const { thickness, gaps } = this.cut;
    const depth = Math.min(size, thickness / 2);
    const shapes = corners.flatMap(({ face, side }) => {
      const ends = [face * (thickness / 2 - depth), (face * thickness) / 2].sort((a, b) => a - b);
      return this.filled(side, ends[0]!, ends[1]!, 'sealant');
    });
    const middle = (this.base + (gaps[1]?.drawn ?? 0)) / 2;
    return { shapes, targets: shapes.length > 0 ? this.pointed(corners, turn, -depth / 2, middle) : [] };
  }

  /** The inner corner of a bead: from the face, from the outline, and which way it goes on along the duct. */
  private seamAt(
    seam: 'blanketToBoard' | 'boardToBarrier' | 'blanketToBarrier' | 'ductToBarrier',
    part: BuiltPart,
  ): readonly [number, number, 1 | -1] | undefined {
    const [b, { collar }] = [this.base, this];
    switch (seam) {
      case 'blanketToBoard':
        if (!collar || this.grown <= -this.inset) return undefined;
        // Where the blanket stands out beyond the board the seam is at the board's edge.
        return this.grown > b + collar.width ? [this.stack, b + collar.width, -1] : [this.stack, this.grown, 1];
      case 'boardToBarrier':
        return collar && [0, b + collar.width, 1];
      case 'blanketToBarrier':
        if (this.grown <= -this.inset) return undefined;
        return [this.grown < b + this.legs ? this.angleDepth : 0, this.grown, 1];
      case 'ductToBarrier': {
        const isOverAngle = this.partsBefore(part).some((one) => one.part === 'angle' && this.isInCut(one));
        return [isOverAngle ? this.legs : 0, b, 1];
      }
    }
  }

  private partsBefore(part: BuiltPart): readonly BuiltPart[] {
    return this.chosen.parts.slice(0, this.chosen.parts.indexOf(part));
  }

  /** How deep what is on the face before this part is. */
  private before(part: BuiltPart): number {
    return this.partsBefore(part).reduce((sum, one) => {
      const isUnder = one.part === 'boardCollar' || (one.part === 'angle' && this.isInCut(one));
      return isUnder ? sum + (one.thickness ?? 0) : sum;
    }, 0);
  }

  private corners(faces: 'both' | 'one'): readonly Corner[] {
    const own = faces === 'one' ? this.faces.slice(-1) : this.faces;
    return own.flatMap((face) => ([0, 1] as const).map((side): Corner => ({ face, side })));
  }

  /** On the higher side, now on the one and now on the other face, so that numbers have room. */
  private pointed(corners: readonly Corner[], turn: number, w: number, u: number): readonly Vec2[] {
    const higher = corners.filter(({ side }) => side === 1);
    const corner = higher[turn % Math.max(1, higher.length)];
    return corner ? [this.point(corner, w, u)] : [];
  }

  private off(face: Face, w: number): number {
    return face * (this.cut.thickness / 2 + w);
  }

  private across(side: Side, along: number, u: number): number {
    return this.cut.duct![side] + (side === 1 ? u : -u) + this.cut.slope * along;
  }

  private point({ face, side }: Corner, w: number, u: number): Vec2 {
    return [this.off(face, w), this.across(side, this.off(face, w), u)];
  }

  /** What stands square on a face keeps its form where the duct is askew. */
  private atFace({ face, side }: Corner, points: Polygon): Polygon {
    return points.map(([w, u]) => [this.off(face, w), this.across(side, this.off(face, 0), u)]);
  }

  /** What lies along the duct goes with it. */
  private ofDuct(corner: Corner, from: number, to: number, inner: number, outer: number): Polygon {
    return rectangleOf(from, to, inner, outer).map(([w, u]) => this.point(corner, w, u));
  }

  private strip(side: Side, from: number, to: number, inner: number, outer: number, layer: number): Shape {
    const outline = rectangleOf(from, to, inner, outer).map(([along, u]): Vec2 => [along, this.across(side, along, u)]);
    return { hatch: this.hatchOf(layer), outline };
  }

  private hatchOf(layer: number): Hatch {
    if (this.chosen.protection === 'board') return 'diagonal';
    return layer % 2 === 0 ? 'wavy' : 'crossed';
  }
}

const rectangleOf = (from: number, to: number, inner: number, outer: number): Polygon => [
  [from, inner],
  [to, inner],
  [to, outer],
  [from, outer],
];

const beadOf = (part: BuiltPart): number => (part.part === 'sealant' ? (part.depth ?? part.width ?? UNSTATED_BEAD) : 0);
