/** Where one stands in a state of the viewer, what is before one there, and how that is said. */
import type { Vec3 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import { type Side, shownIn, type ViewerState } from '../state/state.js';
import { WORDS } from '../words.js';
import { captionOf, elementWords } from './caption.js';
import { standingBefore } from './cut-away.js';
import { type Elements, elementsNear } from './elements.js';
import { ownElements } from './look.js';
import { type Place, placeOf, placeOfBarrier } from './place.js';
import { overview, type Standpoint, standpointFor } from './standpoint.js';

export interface Viewpoint extends Standpoint {
  readonly penetration: ReportPenetration | undefined;
  /** Undefined: the whole building. */
  readonly place: Place | undefined;
  readonly side: Side;
  /** Numbers of elements near enough to be cut or measured, the nearest first. */
  readonly near: readonly number[];
  readonly caption: string;
}

/** mm beyond the rim. */
const NEAR = 4000;

const other = (side: Side): Side => (side === 'A' ? 'B' : 'A');

/** @param aspect width over height of the picture */
export function viewpointOf(state: ViewerState, elements: Elements, origin: Vec3, aspect: number): Viewpoint {
  const open = shownIn(state);
  const { selection, view } = state;
  const penetration = open?.building.lookup.penetrations.get(selection.penetration ?? '');
  const passing = penetration ? [penetration] : open?.building.barriers.get(selection.barrier ?? '')?.penetrations;
  const place = penetration ? placeOf(penetration, origin) : passing && placeOfBarrier(passing, origin);
  const side = view === 'otherSide' ? other(selection.side) : selection.side;
  if (!open || !place) {
    const caption =
      view === 'above' ? WORDS.model.wholeAbove : view === 'free' ? WORDS.model.wholeFree : WORDS.model.whole;
    return { ...overview(elements.all, view, aspect), penetration, place: undefined, side, near: [], caption };
  }
  const standpoint = standpointFor(place, view, side, aspect);
  const { min, max } = place.rim;
  const near = elementsNear(elements, place.frame.origin, NEAR + Math.hypot(max[0] - min[0], max[1] - min[1]));
  const own = new Set((passing ?? []).flatMap((p) => [...ownElements(p)]));
  const isFacing = view === 'front' || view === 'otherSide';
  const before = isFacing ? standingBefore(elements, place, side, (id) => own.has(elements.names[id]!)) : [];
  const caption = captionOf({
    ...{ view, side, place, pose: standpoint.pose, barrier: passing![0]!.barrier, tag: penetration?.tag ?? null },
    before: before.map((id) => elementWords(elements.nodes[id]!.extras, open.report)),
  });
  return { ...standpoint, penetration, place, side, near, caption };
}
