/** What a remedy looks up again and again in a building that was reviewed. */
import { once } from '../collect.js';
import { nameOf } from '../element-refs.js';
import type { BuildingWide } from '../find/find-penetrations.js';
import { readPieces } from '../find/pieces.js';
import { sub } from '../geometry/vector.js';
import type { AirElement, Crossings, ElementRef, Federation, Penetration, Vec3 } from '../model.js';
import type { RuleSet } from '../rules/index.js';
import type { Ductwork } from './spread.js';

export interface Building {
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly wide: BuildingWide;
  readonly systems: RuleSet['systems'];
  readonly penetrations: ReadonlyMap<string, Penetration>;
  readonly element: (ref: ElementRef) => AirElement | undefined;
  /** Joints of the run of an element, access panels included, which lie on their ducts. */
  readonly ductworkOf: (element: AirElement) => Ductwork;
  readonly axisOf: Ductwork['axisOf'];
  /** That pass a barrier with one of these elements. */
  readonly passing: (elements: readonly ElementRef[]) => readonly Penetration[];
  /** Panels on these elements that are modelled as no ductwork. */
  readonly coversOn: (elements: readonly ElementRef[]) => readonly ElementRef[];
}

export function buildingOf(
  federation: Federation,
  crossings: Crossings,
  wide: BuildingWide,
  systems: RuleSet['systems'],
): Building {
  const byName = new Map(federation.airElements.map((element) => [nameOf(element), element]));
  const element = (ref: ElementRef) => byName.get(nameOf(ref));
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
  return {
    federation,
    crossings,
    wide,
    systems,
    penetrations: new Map(crossings.penetrations.map((p) => [p.id, p])),
    element,
    ductworkOf,
    axisOf,
    passing: (elements) => {
      const names = new Set(elements.map(nameOf));
      return crossings.penetrations.filter((p) => p.elements.some((one) => names.has(nameOf(one))));
    },
    coversOn: (elements) => {
      const names = new Set(elements.map(nameOf));
      return panels
        .filter((panel) => names.has(nameOf(panel.duct)) && !element(panel))
        .map(({ model, globalId }) => ({ model, globalId }));
    },
  };
}
