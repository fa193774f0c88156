/** Federation in, every crossing of ductwork and barriers out: measured, named, in the order of the register. */

import { fileUnder } from '../collect.js';
import { refOf } from '../element-refs.js';
import { resistsFire } from '../fire-rating/index.js';
import { boxesMeet, boxOf, grown } from '../geometry/box.js';
import { dot, lineAngle, sub } from '../geometry/vector.js';
import type { AirElement, Barrier, Crossings, Federation, Penetration, ProjectFacts, Side } from '../model.js';
import { NEIGHBOUR_REACH, PARALLEL } from '../tolerances.js';
import { accessFinder } from './access.js';
import { filesApart } from './apart.js';
import { aroundCrossing, surroundingsOf } from './around-crossing.js';
import { allBarriers, type Heads, headsOf } from './barrier-summary.js';
import { clearancesOf } from './clearances.js';
import { type Compartments, findCompartments } from './compartments.js';
import { type Crossed, crossedAt } from './crossed.js';
import { type Cut, CutPieces, type Section } from './cut-pieces.js';
import { damperOutside, dampersOf } from './dampers.js';
import { barrierFacts, describePenetration, world } from './describe.js';
import { doorsOf } from './doors.js';
import { faceRooms } from './face-rooms.js';
import { facesOf } from './faces.js';
import type { GrossBody } from './gross-body.js';
import { joinedWith } from './joints.js';
import { facingEndsKey, issueTags } from './keys.js';
import { piecesOf } from './leaves.js';
import { clearDistance } from './measure.js';
import { nearestJoint } from './nearest-joint.js';
import { obstacleIndex } from './obstacles.js';
import { openingSubjects } from './opening-subjects.js';
import { panelsOf } from './panels.js';
import type { Piece } from './pieces.js';
import { placeFinder } from './places.js';
import type { Plate } from './plates.js';
import { inRegisterOrder, keysOf } from './register-names.js';
import { roundLength } from './rounding.js';
import { runAccess } from './run-access.js';
import { describeRun, findRuns } from './runs.js';
import { searchFederation } from './search.js';
import { findSupports } from './supports.js';
import { protectionOf } from './treatment.js';

export interface FindOptions {
  /** Largest separation that any rule asks for, mm: penetrations nearer than this are neighbours. */
  readonly separation?: number;
  /** From the project's brief: protection that is declared, not modelled. */
  readonly facts?: ProjectFacts | undefined;
  /** Called now and then with the share of the search that is done, 0 to 1; measuring what it found comes after 1. */
  readonly onProgress?: (done: number) => void;
}

/** What hangs on all of a building: how its walls meet the structure, and its compartments. */
export interface BuildingWide {
  readonly heads: Heads;
  readonly compartments: Compartments;
}

export const findPenetrations = (federation: Federation, options: FindOptions = {}): Crossings =>
  findInBuilding(federation, options).crossings;

/** What hangs on all of the building, alone. */
export function findBuildingWide(federation: Federation): BuildingWide {
  const heads = headsOf(searchFederation(federation), federation);
  return { heads, compartments: findCompartments(federation, heads) };
}

/** @param known of the whole building, where the federation is only a part of it */
export function findInBuilding(
  federation: Federation,
  options: FindOptions = {},
  known?: BuildingWide,
): { readonly crossings: Crossings; readonly buildingWide: BuildingWide } {
  const found = searchFederation(federation, options.onProgress);
  const heads = known?.heads ?? headsOf(found, federation);
  const surroundings = surroundingsOf(federation);
  const compartments = known?.compartments ?? findCompartments(federation, heads);
  const joined = findRuns(found.pieces);
  const { runs, runOf, jointsOf } = joined;
  const panels = panelsOf(found.pieces, federation);
  const standingIn = obstacleIndex(federation, found.pieces);
  const damperContext = {
    surroundingsIn: surroundings,
    accessTo: accessFinder(found.pieces, panels, runOf, options.facts),
    joinedTo: (piece: Piece) => joinedWith(piece, jointsOf),
    crossing: new Set(found.stacks.flatMap(piecesOf).map(({ element }) => element)),
  };
  const byBarrier = groupBy(found.stacks, (stack) => stack.leaves.map((leaf) => leaf.group.gross));
  const crossed = found.stacks
    .map((stack) => crossedAt(stack, found, byBarrier, heads))
    .sort((a, b) => inRegisterOrder(a, b, federation));
  const ids = new Map(crossed.map((c, i) => [c.stack, `P-${String(i + 1).padStart(4, '0')}`]));
  const keys = keysOf(crossed);
  const tags = issueTags([...keys.values()]);
  const named = groupBy(crossed, (c) => [c.stack.leaves[0].group.gross]);
  const reach = Math.max(NEIGHBOUR_REACH, options.separation ?? 0);
  const findPlace = placeFinder(federation);
  const faceContext = {
    standingIn,
    jointsOf,
    roomsBeside: faceRooms(federation, compartments),
  };
  const penetrations = crossed.map((c): Penetration => {
    const key = keys.get(c)!;
    const facing: { [S in Side]?: string } = {};
    for (const [side, service] of Object.entries(c.measured.gaps?.facing ?? {}))
      facing[side as Side] = 'stack' in service ? ids.get(service.stack)! : service.element.globalId;
    return describePenetration({
      federation,
      run: runOf.get(c.measured.primary.element) ?? null,
      joint: nearestJoint(piecesOf(c.stack), jointsOf, c.stack.plate),
      headGap: heads.get(c.stack.leaves[0].group.gross.barrier)?.gapOver(c.measured.position),
      facts: options.facts,
      id: ids.get(c.stack)!,
      key,
      tag: tags.get(key)!,
      stack: c.stack,
      dampers: dampersOf(c.stack, damperContext),
      damperOutside: damperOutside(c.stack, damperContext),
      barrier: c.barrier,
      measured: c.measured,
      facing,
      placeFinder: findPlace,
      facesBeside: (rooms) => facesOf(c, rooms, faceContext),
      others: c.measured.inOpening.map((service) =>
        'stack' in service
          ? { ...refOf(service.stack.leaves[0].group.intrusions[0]!.piece.element), kind: 'duct' as const }
          : { ...refOf(service.element), kind: service.element.kind },
      ),
      neighbours: neighboursOf(c, named.get(c.stack.leaves[0].group.gross) ?? [], reach).map(({ other, distance }) => ({
        penetration: ids.get(other.stack)!,
        distance,
      })),
      around: aroundCrossing(c, surroundings),
      compartments: compartments.beside({
        position: c.measured.position,
        normal: c.stack.plate.frame.z,
        thickness: c.stack.plate.thickness,
      }),
    });
  });
  const passed = barriersPassed(crossed, ids);
  const protection = ({ element }: Piece) => protectionOf(element, options.facts);
  const standing = {
    federation,
    standingIn,
    ...{ jointsOf, runOf, passedBy: passed.passedBy, protectionOf: protection },
  };
  // What passes no barrier that may be rated has nothing to be protected for.
  const concerned = new Set([...passed.cutsOf.keys()].map((element) => runOf.get(element)));
  const around = {
    federation,
    cut: new CutPieces(passed.cutsOf, jointsOf, passed.readingOf),
    floorsOf: passed.floorsOf,
    placeAt: compartments.at,
    protectionOf: protection,
    clearancesOf: (sections: readonly Section[]) =>
      sections.some(({ piece }) => concerned.has(runOf.get(piece.element))) ? clearancesOf(sections, standing) : [],
  };
  const described = runs.map((run) => describeRun(run, jointsOf, around));
  const ductwork = { runs: described, pieces: found.pieces, runOf, penetrations };
  const crossings: Crossings = {
    compartments: compartments.all,
    runs: described,
    supports: findSupports(federation, ductwork, options.facts),
    access: runAccess(found.pieces, joined, {
      federation,
      panels,
      facts: options.facts,
      crossed: crossed.map(({ stack }) => ({ id: ids.get(stack)!, stack })),
    }),
    barriers: allBarriers(crossed, found.grossOf, heads),
    doors: doorsOf(federation),
    penetrations,
    facingEnds: found.facing.map(({ gross, pair }) => ({
      key: facingEndsKey(pair.pieces.map((piece) => piece.element.globalId)),
      barrier: barrierFacts(gross.barrier, pair.plate.thickness, { head: heads.get(gross.barrier)?.facts }),
      ends: [refOf(pair.pieces[0].element), refOf(pair.pieces[1].element)],
      system: pair.system,
      storey: gross.barrier.storey ?? pair.pieces[0].element.storey ?? null,
      position: world(federation, pair.position),
      distance: roundLength(pair.distance),
    })),
    openings: openingSubjects(
      crossed.map(({ stack }) => ({ id: ids.get(stack)!, stack })),
      found,
      federation,
    ),
    apart: filesApart(federation),
  };
  return { crossings, buildingWide: { heads, compartments } };
}

/** Which barriers the pieces pass, also as cuts where those may be rated. */
function barriersPassed(crossed: readonly Crossed[], ids: ReadonlyMap<Crossed['stack'], string>) {
  const cutsOf = new Map<AirElement, Cut[]>();
  const floorsOf = new Map<AirElement, string[]>();
  const readingOf = new Map<AirElement, Piece>();
  const passedBy = new Map<AirElement, Barrier[]>();
  for (const { stack, barrier } of crossed) {
    const penetration = ids.get(stack)!;
    for (const piece of piecesOf(stack)) {
      const { element } = piece;
      readingOf.set(element, piece);
      for (const { group } of stack.leaves) fileUnder(passedBy, element, group.gross.barrier);
      if (barrier.kind !== 'wall') fileUnder(floorsOf, element, penetration);
      if (resistsFire(barrier.rating) !== false) fileUnder(cutsOf, element, { penetration, plate: stack.plate });
    }
  }
  return { cutsOf, floorsOf, readingOf, passedBy };
}

/** Items by each of their keys, in the order of the list: no crossing need look through those of other barriers. */
function groupBy<T>(items: readonly T[], keysFor: (item: T) => readonly GrossBody[]): Map<GrossBody, T[]> {
  const groups = new Map<GrossBody, T[]>();
  for (const item of items) for (const key of keysFor(item)) fileUnder(groups, key, item);
  return groups;
}

/** @param beside all crossings of the same barrier */
function neighboursOf(c: Crossed, beside: readonly Crossed[], reach: number): { other: Crossed; distance: number }[] {
  const own = new Set(piecesOf(c.stack));
  const near = grown(boxOf(piecesOf(c.stack).flatMap((piece) => piece.bodies)), reach);
  return beside
    .filter((other) => other !== c)
    .filter((other) => piecesOf(other.stack).some((piece) => boxesMeet(piece.box, near)))
    .filter((other) => sharePlane(c.stack.plate, other.stack.plate))
    .filter((other) => piecesOf(other.stack).every((piece) => !own.has(piece)))
    .map((other) => ({ other, distance: roundLength(clearDistance(c.stack, other.stack)) }))
    .filter(({ distance }) => distance < reach);
}

/** Side by side in one wall, not one behind the other in a wall that turns back. */
const sharePlane = (a: Plate, b: Plate): boolean =>
  lineAngle(a.frame.z, b.frame.z) < PARALLEL &&
  Math.abs(dot(sub(a.frame.origin, b.frame.origin), a.frame.z)) < (a.thickness + b.thickness) / 2;
