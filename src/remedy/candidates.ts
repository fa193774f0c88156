/** All changes that would mend the faults of one place by its own numbers, the cheapest first; which holds, proof shows. */
import { compareTexts } from '../collect.js';
import type { Change, ChangeOpening, ElementRef, Penetration, SingleChange, Vec3 } from '../model.js';
import type { MayChange } from './allowed.js';
import { type AxisSolution, EQUAL, type Pair, type Range, solveAxis } from './axis.js';
import type { Building } from './building.js';
import { costOf } from './cost.js';
import { aimOf, type Fault, type KindOf, type Need, needOf, separationNeed } from './faults.js';
import { type Track, trackOf } from './moves.js';
import { openingRound, roundInstead } from './new-openings.js';
import { besideCorner, solveRound } from './round.js';
import { AXES, axisAlong, hasEdges, mayReshape, openingChange, pairOf, roundIn } from './sections.js';
import { type Combination, combinations } from './ways.js';

export interface Solving {
  readonly building: Building;
  readonly allowed: MayChange;
  readonly kindOf: KindOf;
  /** How far inside each limit a change is aimed, mm. */
  readonly tolerance: number;
  /** That the gaps of a penetration have to be in; null: not known. */
  readonly rangeAt: (p: Penetration) => Range | null;
}

export interface Candidate {
  readonly change: Change;
  readonly cost: number;
}

/** @param p null: along a run; @param further what changes that were tried came too near to */
export function candidatesFor(
  p: Penetration | null,
  faults: readonly Fault[],
  solving: Solving,
  further: readonly Need[] = [],
): Candidate[] {
  const { building, allowed } = solving;
  const single = movers(p, faults, solving).flatMap((mover) =>
    changesOf({ ...mover, needs: [...mover.needs, ...further] }, solving),
  );
  const changes = new Map<string, Change>();
  for (const list of single) {
    if (list.length === 0) continue;
    const change: Change = list.length === 1 ? list[0]! : { kind: 'several', changes: list };
    changes.set(JSON.stringify(change), change);
  }
  return [...changes]
    .map(([text, change]) => ({ text, change, cost: costOf(change, allowed.costs, building.penetrations) }))
    .sort((a, b) => (Math.abs(a.cost - b.cost) > EQUAL ? a.cost - b.cost : compareTexts(a.text, b.text)))
    .map(({ change, cost }) => ({ change, cost }));
}

/** Ductwork that may be moved for a place, with what it has to give way to. */
interface Mover {
  readonly penetration: Penetration | null;
  readonly elements: readonly ElementRef[];
  readonly ways: readonly [Vec3, Vec3];
  readonly needs: readonly Need[];
  readonly opens: boolean;
}

/** Of two ducts that are too near to each other either may move, where nothing else is wrong there. */
function movers(p: Penetration | null, faults: readonly Fault[], { building, tolerance }: Solving): Mover[] {
  if (!p) {
    const { elements } = faults[0]!.finding.subject;
    const needs = faults.map((fault) => needOf(fault, building, tolerance));
    const ways = needs[0]?.[0] ? ([needs[0][0].way, squareTo(needs[0][0].way)] as const) : undefined;
    return ways ? [{ penetration: null, elements: elements.slice(0, 1), ways, needs, opens: false }] : [];
  }
  const opens = faults.some(({ kind }) => kind === 'opening');
  const pairs = faults
    .filter(({ kind }) => kind === 'separation')
    .map(({ finding }) => ({
      other: otherOf(p, finding.subject.elements, building),
      atLeast: (finding.limit?.atLeast ?? 0) + aimOf(finding, tolerance),
    }));
  const own = faults
    .filter(({ kind }) => kind !== 'gap' && kind !== 'flange' && kind !== 'opening' && kind !== 'separation')
    .map((fault) => needOf(fault, building, tolerance));
  const apart = pairs.map(({ other, atLeast }) => (other ? separationNeed(p, other, atLeast) : []));
  const [pair] = pairs;
  const second =
    faults.length === 1 && pair?.other
      ? [moverOf(pair.other, [separationNeed(pair.other, p, pair.atLeast)], false)]
      : [];
  return [moverOf(p, [...own, ...apart], opens), ...second];
}

const moverOf = (p: Penetration, needs: readonly Need[], opens: boolean): Mover => ({
  penetration: p,
  elements: [p.duct, ...p.elements],
  ways: [p.frame.right, p.frame.up],
  needs,
  opens,
});

const squareTo = ([x, y, z]: Vec3): Vec3 => (Math.hypot(x, y) > Math.abs(z) ? [0, 0, 1] : [1, 0, 0]);

function otherOf(p: Penetration, elements: readonly ElementRef[], { penetrations }: Building): Penetration | undefined {
  return p.neighbours
    .map(({ penetration }) => penetrations.get(penetration))
    .find((one) => one?.elements.every((e) => elements.some((named) => named.globalId === e.globalId)));
}

function changesOf(mover: Mover, solving: Solving): SingleChange[][] {
  const { building, allowed, rangeAt } = solving;
  const { penetration: p } = mover;
  const tracks = mover.ways.map((way) => trackOf(mover.elements, way, allowed, building)) as [Track, Track];
  const all = combinations(tracks, mover.needs, allowed);
  const range = p && rangeAt(p);
  if (mover.opens) return p && range ? withNewOpening(p, range, all, tracks, solving) : [];
  const solve = solverOf(p, range, tracks, solving);
  const solved = all.flatMap((combination) => {
    const found = solve(combination);
    const moves = found && movesBy(tracks, found.shift);
    return moves ? [[...moves, ...found.openings]] : [];
  });
  return p && range && mover.needs.length === 0 ? [...solved, ...roundInstead(p, range, allowed)] : solved;
}

interface Solved {
  readonly shift: readonly [number, number];
  readonly openings: readonly ChangeOpening[];
}

function solverOf(p: Penetration | null, range: Range | null, tracks: readonly [Track, Track], solving: Solving) {
  const round = p && range && roundIn(p);
  if (round && mayReshape(p)) return (one: Combination) => solveInRound(p, { ...round, allowed: range }, one, solving);
  return (one: Combination): Solved | undefined => {
    if (p?.opening && (!range || !hasEdges(p))) return undefined;
    const isRoundDuct = p?.duct.shape === 'circular';
    if (!isRoundDuct || !range) return solveAxes(p, [range, range], one, tracks, solving);
    return solveCorners(p, range, one, tracks, solving);
  };
}

/** Both axes by themselves: nothing of one bears on the other. */
function solveAxes(
  p: Penetration | null,
  ranges: readonly [Range | null, Range | null],
  one: Combination,
  tracks: readonly [Track, Track],
  solving: Solving,
): (Solved & { cost: number }) | undefined {
  const { costs } = solving.allowed;
  const rates = { move: costs.movePerMm, widen: costs.widenPerMm, rebuild: costs.rebuildPerMm };
  const solved: { of: Penetration; axis: 0 | 1; by: AxisSolution['edges'][number] }[] = [];
  const shift: [number, number] = [0, 0];
  let cost = 0;
  for (const i of [0, 1] as const) {
    const own =
      p?.opening && ranges[i] ? [{ of: p, axis: i, pair: pairOf(p, i, ranges[i]!, one, solving.allowed) }] : [];
    const shares = [...own, ...goingAlong(p, tracks[i], one, solving)];
    const axis = solveAxis({ shift: one.shift[i], pairs: shares.map(({ pair }) => pair) }, rates);
    if (!axis) return undefined;
    shift[i] = axis.shift;
    cost += axis.cost;
    solved.push(...shares.map(({ of, axis: on }, k) => ({ of, axis: on, by: axis.edges[k]! })));
  }
  const of = [...new Set(solved.map((s) => s.of))];
  const openings = of.flatMap((q) => {
    const sides = solved
      .filter((s) => s.of === q)
      .flatMap(({ axis, by }) => [
        [AXES[axis].low, by.low],
        [AXES[axis].high, by.high],
      ]);
    return openingChange(q, { sides: Object.fromEntries(sides) });
  });
  return { shift, openings, cost };
}

/** Openings that the same ductwork passes elsewhere and whose gaps are in range: they have to stay so. */
function goingAlong(
  p: Penetration | null,
  { way, moved }: Track,
  one: Combination,
  { building, allowed, rangeAt }: Solving,
): { of: Penetration; axis: 0 | 1; pair: Pair }[] {
  return building.passing(moved).flatMap((q) => {
    const on = q === p ? undefined : axisAlong(q, way);
    const range = on && q.duct.shape === 'rectangular' && hasEdges(q) ? rangeAt(q) : null;
    if (!on || !range) return [];
    const pair = pairOf(q, on.axis, range, one, allowed, on.sign);
    const isIn = [pair.low, pair.high].every(({ gap, allowed: a }) => gap >= a.from && gap <= a.to);
    return isIn ? [{ of: q, axis: on.axis, pair }] : [];
  });
}

/** A round duct in a rectangular opening: how wide the gaps on one axis may be says how wide those on the other. */
function solveCorners(
  p: Penetration,
  range: Range,
  one: Combination,
  tracks: readonly [Track, Track],
  solving: Solving,
): Solved | undefined {
  const radius = p.duct.diameter! / 2;
  let best: (Solved & { cost: number }) | undefined;
  for (let most = range.from; most <= range.to; most++) {
    const other = besideCorner(radius, most, range.to);
    if (other < range.from) break;
    const ranges = [
      { from: range.from, to: most },
      { from: range.from, to: Math.min(other, range.to) },
    ] as const;
    const solved = solveAxes(p, ranges, one, tracks, solving);
    if (solved && (!best || solved.cost < best.cost - EQUAL)) best = solved;
  }
  return best;
}

function solveInRound(
  p: Penetration,
  round: { readonly clear: number; readonly offset: readonly [number, number]; readonly allowed: Range },
  { shift, widenBy, rebuildBy }: Combination,
  { allowed: { costs, sides } }: Solving,
): Solved | undefined {
  const isFree = sides.length === 4;
  const found = solveRound(
    { ...round, shift, reach: isFree ? { from: -2 * rebuildBy, to: 2 * widenBy } : { from: 0, to: 0 } },
    { move: costs.movePerMm, widen: costs.widenPerMm, rebuild: costs.rebuildPerMm },
  );
  return found && { shift: found.shift, openings: openingChange(p, { diameter: found.diameter }) };
}

function movesBy(tracks: readonly [Track, Track], shift: readonly [number, number]): SingleChange[] | undefined {
  const moves = tracks.flatMap((track, i) => (shift[i] === 0 ? [] : [track.move(shift[i]!)]));
  return moves.some((one) => one === undefined) ? undefined : (moves as SingleChange[]);
}

/** Where there is none: one round the duct as it lies, or as it lies after what else it needs. */
function withNewOpening(
  p: Penetration,
  range: Range,
  all: readonly Combination[],
  tracks: readonly [Track, Track],
  solving: Solving,
): SingleChange[][] {
  if (!solving.allowed.newOpenings || p.barrier.leaves.length > 0 || p.crossing !== 'through') return [];
  return all
    .filter(({ widenBy, rebuildBy }) => widenBy === 0 && rebuildBy === 0)
    .flatMap((one) => {
      const found = solveAxes(null, [null, null], one, tracks, solving);
      const moves = found && movesBy(tracks, found.shift);
      const opening = moves && openingRound(p, range, moves, null);
      return opening ? [[...moves, opening]] : [];
    });
}
