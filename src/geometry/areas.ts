/** Areas on plan: outlines with holes, united, cut from each other, grown and shrunk. By Clipper2; mm, exact to 0.001. */
import { Clipper, ClipType, EndType, FillRule, JoinType, type PathsD, type PolyPathD, PolyTreeD } from 'clipper2-ts';
import type { Polygon, Vec2 } from '../model.js';
import { area, contains } from './polygon.js';

/** Outlines of any number of areas: outer ones counter-clockwise, holes clockwise, none crossing another. */
export type Outlines = readonly Polygon[];

/** One connected area. */
export interface Patch {
  readonly outer: Polygon;
  readonly holes: readonly Polygon[];
}

const DIGITS = 3;
/** Corners sharper than this many times the distance are cut off when outlines grow: walls meet at less. */
export const MITRE = 3;

const paths = (outlines: Outlines): PathsD => outlines.map((p) => p.map(([x, y]) => ({ x, y })));
const outlinesOf = (found: PathsD): Outlines => found.map((path) => path.map(({ x, y }): Vec2 => [x, y]));

/** Of outlines that may overlap and wind either way, where holes wind against their outer ones. */
export const united = (...lists: readonly Outlines[]): Outlines =>
  outlinesOf(Clipper.unionD(paths(lists.flat()), [], FillRule.NonZero, DIGITS));

export const without = (from: Outlines, cut: Outlines): Outlines =>
  outlinesOf(Clipper.differenceD(paths(from), paths(cut), FillRule.NonZero, DIGITS));

export const shared = (a: Outlines, b: Outlines): Outlines =>
  outlinesOf(Clipper.intersectD(paths(a), paths(b), FillRule.NonZero, DIGITS));

/** With sharp corners; a negative distance shrinks. */
export const grownBy = (outlines: Outlines, distance: number): Outlines =>
  outlinesOf(Clipper.inflatePathsD(paths(outlines), distance, JoinType.Miter, EndType.Polygon, MITRE, DIGITS));

/** Grown and shrunk again: fills what is narrower than the width and leaves everything else as it is. */
export const closedOver = (outlines: Outlines, width: number): Outlines =>
  grownBy(grownBy(outlines, width / 2), -width / 2);

/** mm²; holes taken off. */
export const totalArea = (outlines: Outlines): number => Math.abs(Clipper.areaPathsD(paths(outlines)));

export const patchArea = ({ outer, holes }: Patch): number =>
  holes.reduce((sum, hole) => sum - area(hole), area(outer));

export const outlinesOfPatch = ({ outer, holes }: Patch): Outlines => [
  outer,
  ...holes.map((hole) => [...hole].reverse()),
];

export const patchHolds = ({ outer, holes }: Patch, at: Vec2): boolean =>
  contains(outer, at) && !holes.some((hole) => contains(hole, at));

/** The connected areas, each with the holes in it; all outlines counter-clockwise. */
export function patchesOf(outlines: Outlines): Patch[] {
  const tree = new PolyTreeD();
  Clipper.booleanOpDWithPolyTree(ClipType.Union, paths(outlines), null, tree, FillRule.NonZero, DIGITS);
  const patches: Patch[] = [];
  const visit = (node: PolyPathD): void => {
    for (const outer of childrenOf(node)) {
      const holes = childrenOf(outer);
      patches.push({ outer: polygonOf(outer), holes: holes.map((hole) => [...polygonOf(hole)].reverse()) });
      for (const hole of holes) visit(hole);
    }
  };
  visit(tree);
  return patches;
}

const childrenOf = (node: PolyPathD): PolyPathD[] => Array.from({ length: node.count }, (_, i) => node.child(i));
const polygonOf = ({ poly }: PolyPathD): Polygon => (poly ?? []).map(({ x, y }): Vec2 => [x, y]);
