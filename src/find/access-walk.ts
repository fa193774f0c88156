/** A duct run as a graph that can be walked: along the axes of its pieces, through bends and branches. */

import { refOf } from '../element-refs.js';
import { add, distance, dot, length, lerp, lineAngle, negate, scale, sub, unit, Z } from '../geometry/vector.js';
import type { AccessStop, Vec3 } from '../model.js';
import { JOINT, STEEP } from '../tolerances.js';
import type { Piece } from './pieces.js';
import { roundAngle } from './rounding.js';
import type { JoinedPieces } from './runs.js';
import { endsRun, openPlaces } from './stretches.js';

/** Inner coordinates. */
export interface WalkNode {
  readonly at: Vec3;
  readonly stop: AccessStop | null;
  readonly ways: Way[];
}

export interface Way {
  readonly to: WalkNode;
  readonly length: number;
  /** Nearer to level than to upright. */
  readonly isLevel: boolean;
  /** A straight rigid duct, into which a panel can be cut. */
  readonly isFree: boolean;
}

export interface WalkBend {
  readonly node: WalkNode;
  readonly piece: Piece;
  /** Degrees. */
  readonly angle: number;
}

export interface Walk {
  readonly nodes: readonly WalkNode[];
  readonly bends: readonly WalkBend[];
}

/** What turns by more is a change of direction: IMC 506.3.9.1, as published-values.yaml has it. */
const TURN = 45;
/** By the angle that is reported: a bend of 45° is worked out as a hair more or less. */
const isTurn = (angle: number): boolean => roundAngle(angle) > TURN;

/** A panel on the run: `at` is where it lies on the axis, or its middle where the duct has none. */
export interface PlacedPanel {
  readonly on: Piece;
  readonly at: Vec3;
  readonly stop: AccessStop;
}

export function walkOf({ pieces, joints }: JoinedPieces, panels: readonly PlacedPanel[]): Walk {
  const nodes: WalkNode[] = [];
  const bends: WalkBend[] = [];
  const isDuct = (piece: Piece): boolean => piece.element.isAccessPanel !== true;
  const put = (at: Vec3, stop: AccessStop | null = null): WalkNode => {
    const node = { at, stop, ways: [] };
    nodes.push(node);
    return node;
  };
  const connect = (a: WalkNode, b: WalkNode, by: Piece, way = distance(a.at, b.at)): void => {
    const isLevel = way <= JOINT || lineAngle(sub(b.at, a.at), Z) >= STEEP;
    const isFree = by.straight !== undefined && by.element.kind === 'segment';
    a.ways.push({ to: b, length: way, isLevel, isFree });
    b.ways.push({ to: a, length: way, isLevel, isFree });
  };
  const own = joints.filter((joint) => joint.pieces.every(isDuct));
  const nodeOf = new Map(
    own.map((joint) => {
      const served = joint.pieces.find(endsRun);
      return [joint, put(joint.at, served ? stopAt('terminal', served, joint.at) : null)];
    }),
  );
  for (const piece of pieces.filter(isDuct)) {
    const joined = own.filter((joint) => joint.pieces.includes(piece));
    const ends = openPlaces(piece, joined).map((at) => put(at, stopAt('end', piece, at)));
    const places = [...joined.map((joint) => nodeOf.get(joint)!), ...ends];
    const here = panels.filter(({ on }) => on === piece).map(({ at, stop }) => put(at, stop));
    if (piece.straight) along(piece, [...places, ...here]);
    else across(piece, places, joined, here);
  }
  for (const joint of own) {
    const [a, b] = joint.pieces;
    if (!a.straight || !b.straight || endsRun(a) || endsRun(b)) continue;
    // A branch on the side of a main turns too, but air on the main goes straight on.
    if (![a, b].every(({ straight }) => straight!.axis.some((end) => distance(end, joint.at) <= JOINT))) continue;
    const angle = 180 - angleBetween(into(a, joint.at), into(b, joint.at));
    if (isTurn(angle)) bends.push({ node: nodeOf.get(joint)!, piece: a, angle });
  }
  return { nodes, bends };

  /** Places in their order on the axis; what lies beside it is reached from its foot on the axis. */
  function along(piece: Piece, places: readonly WalkNode[]): void {
    const { axis, direction } = piece.straight!;
    const whole = distance(...axis);
    const onAxis = places
      .map((node) => ({ node, t: Math.min(whole, Math.max(0, dot(sub(node.at, axis[0]), direction))) }))
      .sort((a, b) => a.t - b.t)
      .map(({ node, t }) => {
        const foot = add(axis[0], scale(direction, t));
        if (distance(foot, node.at) <= JOINT) return { node, t };
        const hub = put(foot);
        connect(hub, node, piece);
        return { node: hub, t };
      });
    for (const [i, { node, t }] of onAxis.slice(1).entries()) connect(onAxis[i]!.node, node, piece, t - onAxis[i]!.t);
  }

  /** A bend, a transition or a branch: over the corner at which the axes of what it joins meet. */
  function across(
    piece: Piece,
    places: readonly WalkNode[],
    joined: JoinedPieces['joints'],
    here: readonly WalkNode[],
  ): void {
    if (places.length === 0) return;
    const rays = joined.flatMap((joint) => {
      const neighbour = joint.pieces.find((one) => one !== piece)!;
      return neighbour.straight ? [{ at: joint.at, way: negate(into(neighbour, joint.at)) }] : [];
    });
    const middle = scale(
      places.reduce<Vec3>((sum, { at }) => add(sum, at), [0, 0, 0]),
      1 / places.length,
    );
    const [first, second] = rays;
    const turn = first && second ? angleBetween(first.way, negate(second.way)) : 0;
    const hub = put((first && second && corner(first, second)) ?? middle);
    for (const place of places) connect(place, hub, piece);
    for (const panel of here) connect(panel, hub, piece, 0);
    if (places.length === 2 && isTurn(turn)) bends.push({ node: hub, piece, angle: turn });
  }
}

const stopAt = (kind: AccessStop['kind'], { element }: Piece, at: Vec3): AccessStop => ({
  ...refOf(element),
  ...{ kind, name: element.name, at },
});

/** From one end of a straight piece inwards: what joins it there goes on the other way. */
function into({ straight }: Piece, end: Vec3): Vec3 {
  const { axis, direction } = straight!;
  return distance(axis[0], end) <= distance(axis[1], end) ? direction : negate(direction);
}

function angleBetween(a: Vec3, b: Vec3): number {
  const cosine = dot(unit(a), unit(b));
  return (Math.acos(Math.min(1, Math.max(-1, cosine))) * 180) / Math.PI;
}

interface Ray {
  readonly at: Vec3;
  readonly way: Vec3;
}

/** Where two rays come nearest to each other; undefined where they are parallel, or that lies behind their starts. */
function corner(a: Ray, b: Ray): Vec3 | undefined {
  const between = sub(b.at, a.at);
  const cosine = dot(a.way, b.way);
  const sine2 = 1 - cosine * cosine;
  if (sine2 < 1e-6) return undefined;
  const s = (dot(between, a.way) - dot(between, b.way) * cosine) / sine2;
  const t = (dot(between, a.way) * cosine - dot(between, b.way)) / sine2;
  if (s < 0 || t < 0 || Math.max(s, t) > 4 * length(between)) return undefined;
  return lerp(add(a.at, scale(a.way, s)), add(b.at, scale(b.way, t)), 0.5);
}
