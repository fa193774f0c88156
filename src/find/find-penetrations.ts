/** Federation in, every crossing of ductwork and barriers out: measured, named, in the order of the register. */
import { type Box, boxesMeet, boxOf, boxOfPoints, grown } from '../geometry/box.js';
import { fromPlane } from '../geometry/frame.js';
import { area } from '../geometry/polygon.js';
import { distance, dot, lineAngle, sub } from '../geometry/vector.js';
import type {
  Barrier,
  BarrierFacts,
  Column,
  Crossings,
  Federation,
  Penetration,
  Polygon,
  ProjectFacts,
  Side,
  Vec3,
} from '../model.js';
import { AROUND_REACH, NEIGHBOUR_REACH, PARALLEL } from '../tolerances.js';
import { filesApart } from './apart.js';
import { aroundOpening, type Surroundings } from './around-opening.js';
import { allBarriers, crossedBarrier, type Heads, headsOf } from './barrier-summary.js';
import { findCompartments } from './compartments.js';
import { barrierFacts, describePenetration, world } from './describe.js';
import type { GrossBody } from './gross-body.js';
import { type Intrusion, outlinesOf } from './intrusions.js';
import { facingEndsKey, issueTags, penetrationKey } from './keys.js';
import { type LeafStack, piecesOf } from './leaves.js';
import { clearDistance, type Measured, measureCrossing } from './measure.js';
import { nearestJoint } from './nearest-joint.js';
import { openingSubjects } from './opening-subjects.js';
import { refOf } from './pieces.js';
import { placeFinder } from './places.js';
import type { Plate } from './plates.js';
import { roundLength } from './rounding.js';
import { findRuns } from './runs.js';
import { boxIndex, type Found, type PlacedService, searchFederation } from './search.js';

export interface FindOptions {
  /** Largest separation that any rule asks for, mm: penetrations nearer than this are neighbours. */
  readonly separation?: number;
  /** From the project's brief: protection that is declared, not modelled. */
  readonly facts?: ProjectFacts | undefined;
  /** Called now and then with the share done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** A crossing of ductwork as another crossing sees it in its own opening. */
interface CrossingService {
  readonly stack: LeafStack;
  readonly bodies: PlacedService['bodies'];
}
type Service = PlacedService | CrossingService;

interface Crossed {
  readonly stack: LeafStack;
  readonly barrier: BarrierFacts;
  readonly measured: Measured<Service>;
}

/** Openings are looked through for other services this far round a crossing when they have no box of their own. */
const HOLE_REACH = 3000;

export function findPenetrations(federation: Federation, options: FindOptions = {}): Crossings {
  const found = searchFederation(federation, options.onProgress);
  const heads = headsOf(found, federation);
  const surroundings = surroundingsOf(federation);
  const compartments = findCompartments(federation);
  const { runs, runOf, jointsOf } = findRuns(federation, found.pieces);
  const byBarrier = groupBy(found.stacks, (stack) => stack.leaves.map((leaf) => leaf.group.gross));
  const crossed = found.stacks
    .map((stack) => measure(stack, found, byBarrier, heads))
    .sort((a, b) => inRegisterOrder(a, b, federation));
  const ids = new Map(crossed.map((c, i) => [c.stack, `P-${String(i + 1).padStart(4, '0')}`]));
  const keys = keysOf(crossed);
  const tags = issueTags([...keys.values()]);
  const named = groupBy(crossed, (c) => [c.stack.leaves[0].group.gross]);
  const reach = Math.max(NEIGHBOUR_REACH, options.separation ?? 0);
  const findPlace = placeFinder(federation);
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
      barrier: c.barrier,
      measured: c.measured,
      facing,
      placeFinder: findPlace,
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
  return {
    compartments: compartments.all,
    runs,
    barriers: allBarriers(crossed, found.grossOf, heads),
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
}

function measure(
  stack: LeafStack,
  found: Found,
  byBarrier: ReadonlyMap<GrossBody, readonly LeafStack[]>,
  heads: Heads,
): Crossed {
  const reach = openingReach(stack);
  const own = new Set(piecesOf(stack));
  const beside = new Set(stack.leaves.flatMap((leaf) => byBarrier.get(leaf.group.gross) ?? []));
  const others = [...beside]
    .filter((other) => other !== stack)
    // A duct that passes the barrier again is not in its own way.
    .map((other) => ({ stack: other, pieces: piecesOf(other).filter((piece) => !own.has(piece)) }))
    .filter(({ pieces }) => pieces.some((piece) => boxesMeet(piece.box, reach)))
    .map((other): CrossingService => ({ stack: other.stack, bodies: other.pieces.flatMap((piece) => piece.bodies) }));
  const services: Service[] = [...others, ...found.servicesIn(reach)];
  return { stack, barrier: crossedBarrier(stack, heads), measured: measureCrossing(stack, services) };
}

type SurroundingsIn = (box: Box) => Surroundings;

function surroundingsOf({ barriers, columns }: Federation): SurroundingsIn {
  const placed = <T extends Barrier | Column>(elements: readonly T[]) =>
    boxIndex(elements.map((element) => ({ element, box: boxOf(element.bodies) })));
  const [barriersIn, columnsIn] = [placed(barriers), placed(columns)];
  return (box) => ({
    barriers: barriersIn(box).map(({ element }) => element),
    columns: columnsIn(box).map(({ element }) => element),
  });
}

function aroundCrossing({ stack }: Crossed, surroundingsIn: SurroundingsIn): Penetration['around'] {
  const leaf = stack.leaves.find((one) => one.opening) ?? stack.leaves[0];
  const { gross, plate, intrusions } = leaf.group;
  const outline = leaf.opening?.outlineAt(0, leaf.centre) ?? largestOf(intrusions, plate);
  if (!outline) return [];
  const near = grown(boxOfPoints(outline.map((p) => fromPlane(plate.frame, p))), AROUND_REACH);
  return aroundOpening(gross, plate, outline, leaf.opening?.element, surroundingsIn(near)).map((one) => ({
    ...one,
    distance: roundLength(one.distance),
  }));
}

const largestOf = (intrusions: readonly Intrusion[], plate: Plate): Polygon | undefined =>
  intrusions.flatMap((i) => outlinesOf(i.piece, plate, 0)).sort((a, b) => area(b) - area(a))[0];

/** Items by each of their keys, in the order of the list: no crossing need look through those of other barriers. */
function groupBy<T>(items: readonly T[], keysFor: (item: T) => readonly GrossBody[]): Map<GrossBody, T[]> {
  const groups = new Map<GrossBody, T[]>();
  for (const item of items)
    for (const key of keysFor(item)) {
      const group = groups.get(key);
      if (group) group.push(item);
      else groups.set(key, [item]);
    }
  return groups;
}

function openingReach({ leaves }: LeafStack): Box {
  const elements = leaves.flatMap((leaf) => leaf.opening?.element?.bodies ?? []);
  if (elements.length > 0) return boxOf(elements);
  return grown(boxOf(leaves[0].group.intrusions.flatMap((i) => i.piece.bodies)), HOLE_REACH);
}

/** Contract: by file, storey elevation, barrier GlobalId, then position. */
function inRegisterOrder(a: Crossed, b: Crossed, federation: Federation): number {
  const file = (c: Crossed) => federation.models.findIndex((m) => m.id === c.barrier.model);
  const level = (c: Crossed) => c.barrier.storey?.elevation ?? c.measured.primary.element.storey?.elevation ?? 0;
  const [p, q] = [a.measured.position, b.measured.position];
  return (
    file(a) - file(b) ||
    level(a) - level(b) ||
    compareText(a.barrier.globalId, b.barrier.globalId) ||
    p[0] - q[0] ||
    p[1] - q[1] ||
    p[2] - q[2] ||
    compareText(a.measured.primary.element.globalId, b.measured.primary.element.globalId)
  );
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The ordinal counts along one duct; where GlobalIds repeat it goes on by position, so that no two keys are the same. */
function keysOf(crossed: readonly Crossed[]): Map<Crossed, string> {
  const same = new Map<string, Crossed[]>();
  for (const c of crossed) {
    const pair = `${c.measured.primary.element.globalId}\n${c.barrier.globalId}`;
    same.set(pair, [...(same.get(pair) ?? []), c]);
  }
  const keys = new Map<Crossed, string>();
  for (const list of same.values()) {
    const oneDuct = list.every((c) => c.measured.primary === list[0]!.measured.primary);
    if (oneDuct) list.sort((a, b) => alongDuct(a) - alongDuct(b)); // else they stand by position already
    list.forEach((c, i) => {
      keys.set(c, penetrationKey(c.measured.primary.element.globalId, c.barrier.globalId, i + 1));
    });
  }
  return keys;
}

/**
 * How far along its duct a crossing is. Which end is the first shows a sweep; of a mesh it is the one that is drawn
 * first, so that a building keeps its keys when it is turned.
 */
function alongDuct({ measured: { primary, position } }: Crossed): number {
  const { straight, element } = primary;
  if (!straight) return 0;
  const [start, end] = straight.axis;
  const along = dot(sub(position, start), straight.direction);
  const [body] = element.bodies;
  if (body?.kind !== 'mesh') return along;
  const [x, y, z] = body.positions;
  const first: Vec3 = [x!, y!, z!];
  return distance(first, end) < distance(first, start) ? -along : along;
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
