/** What a click on the model means: the element, and the penetration that it belongs to. */
import { nameOf, refOf } from '../../src/element-refs.js';
import { toPlane } from '../../src/geometry/frame.js';
import { contains } from '../../src/geometry/polygon.js';
import { add, distance, dot, sub } from '../../src/geometry/vector.js';
import type { ElementRef, Vec3 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import { barrierKey } from '../state/building.js';
import type { OpenReport, Selection } from '../state/state.js';
import type { Elements } from './elements.js';
import type { Hit } from './pick.js';
import { ductOnFace, outwards, placeOf } from './place.js';

/**
 * Barriers are drawn whole: where the hit lies in the outline of a duct or an opening, that is what was meant. The penetration
 * is the nearest one of the element; one of a barrier stays as it was.
 */
export function selectionAt(
  hit: Hit,
  elements: Elements,
  open: OpenReport,
  origin: Vec3,
  selection: Selection,
): Selection {
  const { extras } = elements.nodes[hit.id]!;
  const through = extras.kind === 'barrier' ? passingAt(hit.at, open, origin, extras) : undefined;
  const element = through?.element ?? refOf(extras);
  const own = through ? [through.penetration] : extras.kind === 'barrier' ? [] : passedBy(element, open);
  const at = add(hit.at, origin);
  const [nearest] = [...own].sort((a, b) => distance(a.position, at) - distance(b.position, at));
  if (!nearest || nearest.id === selection.penetration) return { ...selection, element };
  const barrier = barrierKey(nearest);
  const side = selection.barrier === barrier ? selection.side : 'A';
  return { barrier, side, penetration: nearest.id, finding: null, element };
}

/** Penetrations of a duct, a damper or an opening. */
const passedBy = (ref: ElementRef, { report }: OpenReport): ReportPenetration[] => {
  const name = nameOf(ref);
  return report.penetrations.filter(
    ({ elements, opening, dampers }) =>
      [...elements, ...dampers].some((one) => nameOf(one) === name) ||
      (opening?.globalId === ref.globalId && opening.model === ref.model),
  );
};

function passingAt(
  at: Vec3,
  { building }: OpenReport,
  origin: Vec3,
  barrier: ElementRef,
): { readonly element: ElementRef; readonly penetration: ReportPenetration } | undefined {
  for (const p of building.barriers.get(`${barrier.model}/${barrier.globalId}`)?.penetrations ?? []) {
    const place = placeOf(p, origin);
    const q = toPlane(place.frame, at);
    const side = dot(sub(at, place.frame.origin), outwards(place, 'A')) > 0 ? 'A' : 'B';
    if (ductOnFace(place, side).some((outline) => contains(outline, q)))
      return { element: refOf(p.duct), penetration: p };
    if (p.opening?.globalId && place.opening.some((outline) => contains(outline, q)))
      return { element: { model: p.opening.model, globalId: p.opening.globalId }, penetration: p };
  }
  return undefined;
}
