/** Pieces of ductwork, cut at the middle of every barrier that they pass and that may be rated. */
import { fileUnder } from '../collect.js';
import { extent } from '../geometry/section.js';
import { add, distance, dot, furthestApart, lerp, scale, sub } from '../geometry/vector.js';
import type { AirElement, Vec3 } from '../model.js';
import type { PieceJoint } from './joints.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';

/** Where ductwork passes a barrier that is rated, or may be. */
export interface Cut {
  readonly penetration: string;
  readonly plate: Plate;
}

/** A piece, or what lies of it on one side of the barriers that it passes. */
export interface Section {
  readonly piece: Piece;
  /** For each cut of the piece on which side of it this lies. */
  readonly key: string;
  /** Of what is known of it, the two places that are furthest apart; of a straight one its axis. */
  readonly ends: readonly [Vec3, Vec3];
  /** Of the cuts that end it. */
  readonly penetrations: readonly string[];
}

/** So near to the middle plane of a barrier a joint lies in it; it then counts to the side that the normal points away from. */
const ON_PLANE = 0.01;

/** A crossing may have been measured on another reading of a piece than its own: then that one is cut. */
export class CutPieces {
  private readonly sections = new Map<AirElement, ReadonlyMap<string, Section>>();

  constructor(
    private readonly cutsOf: ReadonlyMap<AirElement, readonly Cut[]>,
    private readonly jointsOf: ReadonlyMap<AirElement, readonly PieceJoint[]>,
    private readonly readingOf: ReadonlyMap<AirElement, Piece>,
  ) {}

  of(piece: Piece): Section[] {
    return [...this.byKey(piece).values()];
  }

  /** What of a piece is joined at one of its joints. */
  at(piece: Piece, place: Vec3): Section {
    return this.byKey(piece).get(this.keyAt(piece, place))!;
  }

  /** Whether a place is on the section's side of all cuts; of what is on no side that is known, with each. */
  isOn({ piece, key }: Section, place: Vec3): boolean {
    const own = this.keyAt(piece, place);
    return own === key || !this.byKey(piece).has(own);
  }

  /** The joints of a section. */
  joints({ piece, key }: Section): PieceJoint[] {
    return (this.jointsOf.get(piece.element) ?? []).filter(({ at }) => this.keyAt(piece, at) === key);
  }

  /** Those of the whole piece. */
  allJoints({ element }: Piece): readonly PieceJoint[] {
    return this.jointsOf.get(element) ?? [];
  }

  /** How much of the way between the ends of a section lies between the faces of the barriers that its piece passes. */
  inBarriers({ piece, ends }: Section): number {
    const shares = this.cuts(piece).map((cut) => {
      const [from, to] = [heightOver(cut, ends[0]), heightOver(cut, ends[1])];
      if (Math.abs(to - from) < ON_PLANE) return 0;
      const half = cut.plate.thickness / 2;
      const [a, b] = [-half, half].map((height) => Math.max(0, Math.min(1, (height - from) / (to - from))));
      return Math.abs(b! - a!);
    });
    return (
      Math.min(
        1,
        shares.reduce((sum, share) => sum + share, 0),
      ) * distance(...ends)
    );
  }

  private keyAt(piece: Piece, place: Vec3): string {
    return this.cuts(piece)
      .map((cut) => (heightOver(cut, place) > ON_PLANE ? '+' : '-'))
      .join('');
  }

  private cuts(piece: Piece): readonly Cut[] {
    return this.cutsOf.get(piece.element) ?? [];
  }

  private byKey(one: Piece): ReadonlyMap<string, Section> {
    const known = this.sections.get(one.element);
    if (known) return known;
    const piece = this.readingOf.get(one.element) ?? one;
    const cuts = this.cuts(piece);
    const places = new Map<string, Vec3[]>();
    for (const { at } of this.jointsOf.get(piece.element) ?? []) fileUnder(places, this.keyAt(piece, at), at);
    for (const [middle, at] of piece.straight ? alongAxis(piece.straight, cuts) : reachOf(piece, cuts))
      fileUnder(places, this.keyAt(piece, middle), at);
    const sections = new Map(
      [...places].map(([key, own]): [string, Section] => {
        const penetrations = cuts.filter((_, i) => places.has(flipped(key, i))).map((cut) => cut.penetration);
        return [key, { piece, key, ends: furthestApart(own), penetrations }];
      }),
    );
    this.sections.set(piece.element, sections);
    return sections;
  }
}

const heightOver = ({ plate: { frame } }: Cut, p: Vec3): number => dot(sub(p, frame.origin), frame.z);
const flipped = (key: string, i: number): string => key.slice(0, i) + (key[i] === '+' ? '-' : '+') + key.slice(i + 1);

type Located = readonly [inside: Vec3, end: Vec3];

/** Both ends of every part of the axis between cuts, each with a place that is inside the part for certain. */
function alongAxis({ axis: [from, to], direction }: NonNullable<Piece['straight']>, cuts: readonly Cut[]): Located[] {
  const long = distance(from, to);
  const places = cuts
    .map((cut) => -heightOver(cut, from) / dot(direction, cut.plate.frame.z))
    .filter((t) => t > 0 && t < long)
    .sort((a, b) => a - b);
  const ends = [0, ...places, long].map((t) => add(from, scale(direction, t)));
  return ends.slice(1).flatMap((end, i): Located[] => {
    const middle = lerp(ends[i]!, end, 0.5);
    return [
      [middle, ends[i]!],
      [middle, end],
    ];
  });
}

/** Of a bend, a branch or the like: its ports, and as far as it reaches before and behind the barriers. */
function reachOf({ element, bodies, box }: Piece, cuts: readonly Cut[]): Located[] {
  const middle = lerp(box.min, box.max, 0.5);
  const reached = cuts.flatMap((cut) => {
    const { origin, z } = cut.plate.frame;
    const atHeight = (height: number) => add(middle, scale(z, height - heightOver(cut, middle)));
    return extent(bodies, origin, z).flatMap((reach): Located[] => {
      const end = atHeight(reach);
      return [
        [end, end],
        [end, atHeight(0)],
      ];
    });
  });
  const places = [...element.ports.map(({ at }) => at), ...(cuts.length > 0 ? [] : [middle])];
  return [...reached, ...places.map((at): Located => [at, at])];
}
