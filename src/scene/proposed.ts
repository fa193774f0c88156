/** Elements and openings as the changes of findings would have them: the changes are made in memory, as for their proof. */
import { nameOf, refOf } from '../element-refs.js';
import type { AirElement, Barrier, Body, ElementRef, Federation, SingleChange, Vec3 } from '../model.js';
import { apply, type Changeable } from '../remedy/apply.js';
import { singlesOf } from '../remedy/singles.js';
import type { Report } from '../report/schema.js';
import type { ProposedExtras } from './geometry-extras.js';
import type { GeometryNode } from './geometry-nodes.js';
import { type Triangles, triangulate } from './triangulate.js';

type Proposed = GeometryNode<ProposedExtras>;

/** A change that mends several findings is made once; each finding has nodes of its own. */
export function proposedNodes(federation: Federation, report: Pick<Report, 'findings' | 'penetrations'>): Proposed[] {
  const named = new Map(report.penetrations.map((one) => [one.id, one]));
  const air = new Map(federation.airElements.map((one) => [nameOf(one), one]));
  const barriers = new Map(federation.barriers.map((one) => [nameOf(one), one]));
  const made = new Map<string, Changed[]>();
  return report.findings.flatMap(({ id, change }) => {
    if (!change) return [];
    const key = JSON.stringify(change);
    const known = made.get(key);
    const singles = singlesOf(change);
    const changed = known ?? changedBy(singles, partOf(federation, singles, air, barriers), named);
    made.set(key, changed);
    return changed.map(({ element, name, shape, by }): Proposed => {
      return { name, extras: { kind: 'proposed', ...element, finding: id, by }, shape, surface: 'proposed' };
    });
  });
}

/** Only what the changes name: nothing else of a building is changed. */
function partOf(
  { origin, accessCovers = [] }: Federation,
  changes: readonly SingleChange[],
  air: ReadonlyMap<string, AirElement>,
  barriers: ReadonlyMap<string, Barrier>,
): Changeable {
  const ducts = namesIn(changes, (change) =>
    change.kind === 'moveDuct' ? [...change.elements, ...change.lengths] : [],
  );
  const hosts = namesIn(changes, (change) => ('barrier' in change ? [change.barrier] : []));
  return {
    origin,
    airElements: [...ducts].flatMap((name) => air.get(name) ?? []),
    barriers: [...hosts].flatMap((name) => barriers.get(name) ?? []),
    accessCovers: accessCovers.filter((one) => ducts.has(nameOf(one))),
  };
}

const namesIn = (
  changes: readonly SingleChange[],
  refs: (change: SingleChange) => readonly ElementRef[],
): ReadonlySet<string> => new Set(changes.flatMap((change) => refs(change).map(nameOf)));

interface Changed {
  readonly element: ElementRef;
  readonly name: string;
  readonly shape: Triangles;
  readonly by: Vec3 | null;
}

function changedBy(
  changes: readonly SingleChange[],
  before: Changeable,
  named: Parameters<typeof apply>[2],
): Changed[] {
  const after = apply(before, changes, named);
  const was = new Set(elementsOf(before).map(({ bodies }) => bodies));
  const movedBy = new Map(
    changes.flatMap((change) =>
      change.kind === 'moveDuct' ? change.elements.map((one) => [nameOf(one), change.by] as const) : [],
    ),
  );
  return elementsOf(after)
    .filter((one) => !was.has(one.bodies) && one.bodies.length > 0)
    .map((one) => ({
      element: refOf(one),
      name: one.name,
      shape: triangulate(one.bodies),
      by: movedBy.get(nameOf(one)) ?? null,
    }));
}

type Drawn = ElementRef & { readonly name: string; readonly bodies: readonly Body[] };

const elementsOf = ({ airElements, barriers, accessCovers = [] }: Changeable): Drawn[] => [
  ...airElements,
  ...accessCovers,
  ...barriers,
  ...barriers.flatMap(({ openings }) => openings),
];
