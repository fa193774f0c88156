/** What a remedy looks up in a building that was reviewed: by index, since a building may have thousands of places. */
import { fileUnder, once } from '../collect.js';
import { nameOf } from '../element-refs.js';
import type { BuildingWide } from '../find/find-penetrations.js';
import { readPieces } from '../find/pieces.js';
import { sub } from '../geometry/vector.js';
import type {
  AirElement,
  Barrier,
  Crossings,
  ElementRef,
  Federation,
  Penetration,
  Stretch,
  TestedFor,
  Vec3,
} from '../model.js';
import type { BareFinding, RuleSet } from '../rules/index.js';
import { type Nearby, nearbyIn } from './nearby.js';
import type { Ductwork } from './spread.js';

export interface Building {
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly wide: BuildingWide;
  readonly systems: RuleSet['systems'];
  readonly tested: readonly TestedFor[];
  /** All that was judged and is bad, by key. */
  readonly bad: ReadonlyMap<string, BareFinding>;
  readonly penetrations: ReadonlyMap<string, Penetration>;
  readonly element: (ref: ElementRef) => AirElement | undefined;
  readonly barrier: (ref: ElementRef) => Barrier | undefined;
  readonly nearby: Nearby;
  /** Of terminals and equipment those that serve them. */
  readonly stretchesOf: (ref: ElementRef) => readonly Stretch[];
  /** On both sides of a penetration, given by its id. */
  readonly stretchesAt: (penetration: string) => readonly Stretch[];
  /** Joints of the run of an element, access panels included, which lie on their ducts. */
  readonly ductworkOf: (element: AirElement) => Ductwork;
  readonly axisOf: Ductwork['axisOf'];
  /** That pass a barrier with one of these elements; in the order of the register. */
  readonly passing: (elements: readonly ElementRef[]) => readonly Penetration[];
  /** Panels on these elements that are modelled as no ductwork. */
  readonly coversOn: (elements: readonly ElementRef[]) => readonly ElementRef[];
}

export function buildingOf(
  reviewed: Pick<Building, 'federation' | 'crossings' | 'wide' | 'systems' | 'tested' | 'bad'>,
): Building {
  const { federation, crossings } = reviewed;
  const element = byRef(federation.airElements);
  const runOf = new Map(
    crossings.runs.flatMap((run) => [...run.elements, ...run.serves].map((one) => [nameOf(one), run] as const)),
  );
  // Which way a box is a duct shows only beside what it joins, so all pieces are read together, once.
  const axes = once(
    () => new Map(readPieces(federation.airElements).map((piece) => [piece.element, piece.straight?.axis])),
  );
  const axisOf: Ductwork['axisOf'] = (one) => axes().get(one);
  const panels = crossings.access.flatMap((access) => access.panels);
  const inner = (at: Vec3): Vec3 => sub(at, federation.origin);
  const ductwork = new Map<unknown, Ductwork>();
  const ductworkOf = (one: AirElement): Ductwork => {
    const run = runOf.get(nameOf(one));
    const known = ductwork.get(run);
    if (known) return known;
    const on = panels.filter(({ duct, model, globalId }) => nameOf(duct) !== nameOf({ model, globalId }));
    const pairs = [
      ...(run?.joints ?? []).map(({ elements, at }) => ({ elements, at })),
      ...on
        .filter(({ duct }) => runOf.get(nameOf(duct)) === run)
        .map((panel) => ({ elements: [panel, panel.duct], at: panel.at })),
    ];
    const joints = pairs.flatMap(({ elements: [a, b], at }) => {
      const [first, second] = [element(a!), element(b!)];
      return first && second ? [{ elements: [first, second] as const, at: inner(at) }] : [];
    });
    const made = { joints, axisOf };
    ductwork.set(run, made);
    return made;
  };
  const stretches = crossings.runs.flatMap((run) => run.stretches);
  const stretchesBy = filed(stretches, ({ parts, serves }) => [...parts, ...serves].map(nameOf));
  const passingBy = filed([...crossings.penetrations.entries()], ([, { elements }]) => elements.map(nameOf));
  return {
    ...reviewed,
    penetrations: new Map(crossings.penetrations.map((p) => [p.id, p])),
    element,
    barrier: byRef(federation.barriers),
    nearby: nearbyIn(federation),
    stretchesOf: (ref) => stretchesBy(nameOf(ref)),
    stretchesAt: filed(stretches, ({ ends }) => ends.map(({ penetration }) => penetration)),
    ductworkOf,
    axisOf,
    passing: (elements) =>
      [...new Set(elements.flatMap((one) => passingBy(nameOf(one))))].sort(([a], [b]) => a - b).map(([, p]) => p),
    coversOn: (elements) => {
      const names = new Set(elements.map(nameOf));
      return panels
        .filter((panel) => names.has(nameOf(panel.duct)) && !element(panel))
        .map(({ model, globalId }) => ({ model, globalId }));
    },
  };
}

function byRef<T extends ElementRef>(elements: readonly T[]): (ref: ElementRef) => T | undefined {
  const byName = new Map(elements.map((element) => [nameOf(element), element]));
  return (ref) => byName.get(nameOf(ref));
}

function filed<T>(items: readonly T[], keysOf: (item: T) => readonly string[]): (key: string) => readonly T[] {
  const lists = new Map<string, T[]>();
  for (const item of items) for (const key of new Set(keysOf(item))) fileUnder(lists, key, item);
  return (key) => lists.get(key) ?? [];
}
