/** Duct runs: ductwork that is joined, up to the terminals and the equipment that it serves. */
import { compareTexts, fileUnder } from '../collect.js';
import { distance } from '../geometry/vector.js';
import type { AirElement, ElementRef, Federation, Run, Vec3 } from '../model.js';
import { world } from './describe.js';
import { findJoints, type PieceJoint } from './joints.js';
import { type Piece, refOf } from './pieces.js';
import { roundLength } from './rounding.js';

export interface Runs {
  readonly runs: readonly Run[];
  /** Terminals and equipment end runs and belong to none. */
  readonly runOf: ReadonlyMap<AirElement, string>;
  /** Where an element is joined, inner coordinates. */
  readonly jointsOf: ReadonlyMap<AirElement, readonly Vec3[]>;
  /** What a piece is joined with. */
  readonly joinedTo: ReadonlyMap<Piece, readonly Piece[]>;
}

/** Air goes in or out here, or is treated: what comes behind is another run. */
const ENDS_RUN = new Set<string>(['terminal', 'equipment']);
const isPartOfRun = ({ element }: Piece): boolean => !ENDS_RUN.has(element.kind);

export function findRuns(federation: Federation, pieces: readonly Piece[]): Runs {
  const joints = findJoints(pieces);
  const groups = groupsOf(pieces.filter(isPartOfRun), joints).filter((group) => !isLonePanel(group));
  const jointsOf = new Map<Piece, PieceJoint[]>();
  for (const joint of joints) for (const piece of joint.pieces) fileUnder(jointsOf, piece, joint);
  const described = groups
    .map((group) => {
      const own = [...new Set(group.flatMap((piece) => jointsOf.get(piece) ?? []))];
      return { group, run: describe(federation, group, own) };
    })
    .sort(
      (a, b) =>
        compareTexts(a.run.system ?? '\uffff', b.run.system ?? '\uffff') || compareTexts(first(a.run), first(b.run)),
    );
  const runs = described.map(({ run }, i) => ({ ...run, id: `R-${String(i + 1).padStart(3, '0')}` }));
  return {
    runs,
    jointsOf: new Map([...jointsOf].map(([{ element }, own]) => [element, own.map(({ at }) => at)])),
    joinedTo: new Map(
      [...jointsOf].map(([piece, own]) => [
        piece,
        own.flatMap(({ pieces: both }) => both.filter((one) => one !== piece)),
      ]),
    ),
    runOf: new Map(described.flatMap(({ group }, i) => group.map(({ element }) => [element, runs[i]!.id]))),
  };
}

const first = ({ elements }: Omit<Run, 'id'>): string => elements[0]!.globalId;

/** An access panel lies on a duct, and is seldom joined with it: by itself it is no run. */
const isLonePanel = (group: readonly Piece[]): boolean =>
  group.length === 1 && group[0]!.element.isAccessPanel === true;

/** Pieces that are joined, directly or through others, in the order of the list. */
function groupsOf(pieces: readonly Piece[], joints: readonly PieceJoint[]): Piece[][] {
  const parent = new Map(pieces.map((piece) => [piece, piece]));
  const root = (piece: Piece): Piece => {
    let at = piece;
    for (let up = parent.get(at)!; up !== at; up = parent.get(at)!) {
      // Half the way is cut off each time, so that long runs stay quick.
      parent.set(at, parent.get(up)!);
      at = up;
    }
    return at;
  };
  for (const { pieces: both } of joints) {
    const [a, b] = both;
    if (parent.has(a) && parent.has(b)) parent.set(root(a), root(b));
  }
  const groups = new Map<Piece, Piece[]>();
  for (const piece of pieces) fileUnder(groups, root(piece), piece);
  return [...groups.values()];
}

function describe(federation: Federation, group: readonly Piece[], joints: readonly PieceJoint[]): Omit<Run, 'id'> {
  const systems = [...new Set(group.flatMap(({ element }) => element.system ?? []))].sort();
  const served = joints.flatMap(({ pieces }) => pieces.filter((piece) => !isPartOfRun(piece)));
  return {
    system: systems.length === 1 ? systems[0]! : null,
    systems,
    elements: refsOf(group),
    joints: joints.map(({ pieces: [a, b], at, from }) => ({
      elements: [refOf(a.element), refOf(b.element)],
      at: world(federation, at),
      from,
    })),
    serves: refsOf([...new Set(served)]),
    length: roundLength(
      group.reduce((sum, { straight }) => sum + (straight ? distance(straight.axis[0], straight.axis[1]) : 0), 0),
    ),
  };
}

const refsOf = (pieces: readonly Piece[]): ElementRef[] =>
  pieces
    .map(({ element }) => refOf(element))
    .sort((a, b) => compareTexts(a.globalId, b.globalId) || compareTexts(a.model, b.model));
