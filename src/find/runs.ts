/** Duct runs: ductwork that is joined, up to the terminals and the equipment that it serves. */

import { compareTexts, fileUnder } from '../collect.js';
import { refOf, refsOf } from '../element-refs.js';
import { distance } from '../geometry/vector.js';
import { groupsJoined } from '../joined.js';
import type { AirElement, Run } from '../model.js';
import { world } from './describe.js';
import { findJoints, type PieceJoint } from './joints.js';
import type { Piece } from './pieces.js';
import { risersOf } from './risers.js';
import { roundLength } from './rounding.js';
import { endsRun, type StretchSurroundings, stretchesOf } from './stretches.js';

/** A run as pieces, before it is known which barriers it passes. */
export interface JoinedPieces {
  readonly id: string;
  readonly system: string | null;
  readonly systems: readonly string[];
  readonly pieces: readonly Piece[];
  /** Also those with what it serves. */
  readonly joints: readonly PieceJoint[];
}

export interface Runs {
  readonly runs: readonly JoinedPieces[];
  /** Terminals and equipment end runs and belong to none. */
  readonly runOf: ReadonlyMap<AirElement, string>;
  readonly jointsOf: ReadonlyMap<AirElement, readonly PieceJoint[]>;
}

export function findRuns(pieces: readonly Piece[]): Runs {
  const joints = findJoints(pieces);
  const jointsOf = new Map<AirElement, PieceJoint[]>();
  for (const joint of joints) for (const { element } of joint.pieces) fileUnder(jointsOf, element, joint);
  const runs = groupsJoined(
    pieces.filter((piece) => !endsRun(piece)),
    joints.map((joint) => joint.pieces),
  )
    .filter((group) => !isLonePanel(group))
    .map((group) => {
      const systems = [...new Set(group.flatMap(({ element }) => element.system ?? []))].sort();
      const own = [...new Set(group.flatMap((piece) => jointsOf.get(piece.element) ?? []))];
      return { system: systems.length === 1 ? systems[0]! : null, systems, pieces: group, joints: own };
    })
    .sort((a, b) => compareTexts(a.system ?? '\uffff', b.system ?? '\uffff') || compareTexts(first(a), first(b)))
    .map((run, i): JoinedPieces => ({ ...run, id: `R-${String(i + 1).padStart(3, '0')}` }));
  return {
    runs,
    jointsOf,
    runOf: new Map(runs.flatMap(({ id, pieces }) => pieces.map(({ element }) => [element, id]))),
  };
}

const first = ({ pieces }: Pick<JoinedPieces, 'pieces'>): string =>
  refsOf(pieces.map(({ element }) => element))[0]!.globalId;

/** An access panel lies on a duct, and is seldom joined with it: by itself it is no run. */
const isLonePanel = (group: readonly Piece[]): boolean =>
  group.length === 1 && group[0]!.element.isAccessPanel === true;

export interface RunSurroundings extends StretchSurroundings {
  /** Ids of the penetrations through floors and roofs by the pieces that pass them. */
  readonly floorsOf: ReadonlyMap<AirElement, readonly string[]>;
}

/** The run as reports show it. */
export function describeRun(
  { id, system, systems, pieces, joints }: JoinedPieces,
  jointsOf: Runs['jointsOf'],
  around: RunSurroundings,
): Run {
  const { federation } = around;
  const isBranch = ({ element }: Piece): boolean => (jointsOf.get(element)?.length ?? 0) > 2;
  return {
    id,
    system,
    systems,
    elements: refsOf(pieces.map(({ element }) => element)),
    joints: joints.map(({ pieces: [a, b], at, from, flow }) => ({
      elements: [refOf(a.element), refOf(b.element)],
      at: world(federation, at),
      from,
      flow,
    })),
    serves: refsOf(joints.flatMap((joint) => joint.pieces.filter(endsRun).map(({ element }) => element))),
    length: roundLength(
      pieces.reduce((sum, { straight }) => sum + (straight ? distance(straight.axis[0], straight.axis[1]) : 0), 0),
    ),
    branches: refsOf(pieces.filter(isBranch).map(({ element }) => element)),
    risers: risersOf(pieces, joints, around),
    stretches: stretchesOf(pieces, joints, around).map((stretch, i) => ({ ...stretch, id: `${id}.${i + 1}` })),
  };
}
