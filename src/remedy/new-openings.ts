/** Openings where there are none, and round ones in place of those that are no good. */

import { refOf } from '../element-refs.js';
import { roundPoint } from '../find/rounding.js';
import { bounds } from '../geometry/polygon.js';
import { add } from '../geometry/vector.js';
import type { ElementRef, NewOpening, Penetration, SingleChange } from '../model.js';
import { openingSize } from '../opening-size.js';
import type { MayChange } from './allowed.js';
import type { Range } from './axis.js';
import { ductCentre, mayReshape, openingRef, slideOf } from './sections.js';

/** @param moves of the duct, which come first; @param instead of which opening; null: there is none */
export function openingRound(
  p: Penetration,
  { from, to }: Range,
  moves: readonly SingleChange[],
  instead: ElementRef | null,
): NewOpening | undefined {
  const box = bounds(p.outlines.duct);
  const [slideX, slideY] = slideOf(p);
  const isRound = p.duct.shape === 'circular' && slideX + slideY === 0;
  const limit = { atLeast: from, ...(Number.isFinite(to) && { atMost: to }) };
  const [w, h] = [box.max[0] - box.min[0], box.max[1] - box.min[1]];
  const width = isRound ? openingSize(p.duct.diameter!, 0, limit) : openingSize(w, slideX, limit);
  const height = isRound ? width : openingSize(h, slideY, limit);
  if (width === undefined || height === undefined || p.outlines.duct.length !== 1) return undefined;
  const centre = moves.reduce((at, one) => (one.kind === 'moveDuct' ? add(at, one.by) : at), ductCentre(p));
  return {
    ...{ kind: 'newOpening', penetration: p.id, barrier: refOf(p.barrier), instead },
    shape: isRound ? 'circular' : 'rectangular',
    ...{ width, height, centre: roundPoint(centre), along: p.frame.right },
  };
}

/** A round duct whose opening is no good however it is altered: a round opening about the duct takes its place. */
export function roundInstead(p: Penetration, range: Range, { newOpenings, sides }: MayChange): SingleChange[][] {
  const instead = openingRef(p);
  if (p.duct.shape !== 'circular' || !instead || !newOpenings || sides.length < 4 || !mayReshape(p)) return [];
  const opening = openingRound(p, range, [], instead);
  return opening?.shape === 'circular' ? [[opening]] : [];
}
