/** Openings with everything that passes them: one opening is packed and sealed as one, whoever's services are in it. */
import { refOf } from '../element-refs.js';
import { boxOf } from '../geometry/box.js';
import { fromPlane } from '../geometry/frame.js';
import { area, boxCentre, overlaps } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { lerp } from '../geometry/vector.js';
import type { Body, ElementRef, Federation, OpeningFacts, OpeningSubject, Polygon } from '../model.js';
import { world } from './describe.js';
import type { GrossBody } from './gross-body.js';
import type { Leaf, LeafStack } from './leaves.js';
import { type FoundOpening, findOpening, openingFacts } from './openings.js';
import type { Plate } from './plates.js';
import { roundArea, roundLength } from './rounding.js';
import type { Found } from './search.js';

type ServiceKind = OpeningSubject['services'][number]['kind'];
interface Passing {
  readonly element: ElementRef;
  readonly kind: ServiceKind;
  readonly bodies: readonly Body[];
}

interface Passed {
  readonly gross: GrossBody;
  readonly plate: Plate;
  readonly opening: FoundOpening;
  readonly outline: Polygon;
  readonly penetrations: string[];
  readonly ducts: Passing[];
}

/** In the order of the barriers, then of the penetrations; those that only pipes and cables pass come last. */
export function openingSubjects(
  crossed: readonly { readonly id: string; readonly stack: LeafStack }[],
  found: Found,
  federation: Federation,
): OpeningSubject[] {
  // A hole in a body has no identity but its outline, which is cut once for all.
  const passed = new Map<unknown, Passed>();
  for (const { id, stack } of crossed) {
    const leaf = stack.leaves.find((one) => one.opening) ?? stack.leaves[0];
    const outline = leaf.opening?.outlineAt(0, leaf.centre);
    if (!leaf.opening || !outline) continue;
    const key = leaf.opening.element ?? outline;
    const known = passed.get(key) ?? asPassed(leaf, leaf.opening, outline);
    passed.set(key, known);
    known.penetrations.push(id);
    known.ducts.push(
      ...leaf.group.intrusions.map(({ piece }) => ({
        element: piece.element,
        kind: 'duct' as const,
        bodies: piece.bodies,
      })),
    );
  }
  for (const gross of found.grossOf.values())
    for (const opening of gross.barrier.openings) {
      if (passed.has(opening) || opening.doors.length > 0 || opening.bodies.length === 0) continue;
      const other = withoutDucts(gross, opening, found);
      if (other) passed.set(opening, other);
    }
  return [...passed.values()]
    .map((one) => describe(one, found, federation))
    .filter(({ services }) => services.length > 0)
    .map((subject, i) => ({ id: `O-${String(i + 1).padStart(4, '0')}`, ...subject }));
}

const asPassed = (leaf: Leaf, opening: FoundOpening, outline: Polygon): Passed => ({
  gross: leaf.group.gross,
  plate: leaf.group.plate,
  opening,
  outline,
  penetrations: [],
  ducts: [],
});

/** An opening that no ductwork passes; other services may. */
function withoutDucts(
  gross: GrossBody,
  element: GrossBody['barrier']['openings'][number],
  found: Found,
): Passed | undefined {
  const box = boxOf(element.bodies);
  if (found.servicesIn(box).length === 0) return undefined;
  for (const plate of gross.platesNear(lerp(box.min, box.max, 0.5))) {
    const outline = cutBodies(element.bodies, plate.frame).outers[0];
    if (!outline) continue;
    const opening = findOpening(gross, plate, boxCentre([outline]));
    if (opening?.element === element) return { gross, plate, opening, outline, penetrations: [], ducts: [] };
  }
  return undefined;
}

function describe(passed: Passed, found: Found, federation: Federation): Omit<OpeningSubject, 'id'> {
  const { gross, plate, opening, outline, penetrations, ducts } = passed;
  const reach = boxOf(opening.element?.bodies ?? gross.barrier.bodies);
  const others = found
    .servicesIn(reach)
    .map(({ element, bodies }): Passing => ({ element, kind: element.kind, bodies }));
  const inside = [...ducts, ...others]
    .map((service) => ({ service, outlines: cutBodies(service.bodies, plate.frame).outers }))
    .map((one) => ({ ...one, outlines: one.outlines.filter((o) => overlaps(o, outline)) }))
    .filter(({ service, outlines }) => service.kind === 'duct' || outlines.length > 0);
  const taken = withoutNested(inside.flatMap(({ outlines }) => outlines)).reduce((sum, o) => sum + area(o), 0);
  const services = inside.map(({ service }) => ({ ...refOf(service.element), kind: service.kind }));
  const facts: OpeningFacts = openingFacts(opening, outline, gross.barrier.model);
  return {
    ...facts,
    width: roundLength(facts.width),
    height: roundLength(facts.height),
    barrier: refOf(gross.barrier),
    penetrations,
    services,
    areaM2: roundArea(area(outline) / 1e6),
    freeAreaM2: roundArea(Math.max(0, area(outline) - taken) / 1e6),
    combined: penetrations.length + inside.filter(({ service }) => service.kind !== 'duct').length > 1,
    position: world(federation, fromPlane(plate.frame, boxCentre([outline]))),
  };
}

/** A damper and the duct in it fill one place; the larger counts. */
function withoutNested(outlines: readonly Polygon[]): Polygon[] {
  const kept: Polygon[] = [];
  for (const outline of [...outlines].sort((a, b) => area(b) - area(a)))
    if (!kept.some((other) => overlaps(outline, other))) kept.push(outline);
  return kept;
}
