/** Where the fewest access panels go along a way: plain numbers, millimetres along it. */

export interface WayToReach {
  readonly length: number;
  /** Greatest distance from one opening to the next, the ends of the way included; Infinity: no limit. */
  readonly spacing: number;
  /** Places that need an opening within a distance, at either side. */
  readonly targets: readonly { readonly at: number; readonly within: number }[];
  /** Where panels may lie, in order, ends included. */
  readonly allowed: readonly (readonly [number, number])[];
}

/** Half a step of what is reported: what is met to that is met. */
const NEARLY = 0.05;

/**
 * Each panel as far on as the spacing and the next unreached target allow: no choice of places needs fewer, since any
 * other has its first panel no further on. Both ends of the way are openings. Null: what is allowed does not suffice.
 */
export function fewestPanels({ length, spacing, targets, allowed }: WayToReach): readonly number[] | null {
  const places: number[] = [];
  let last = 0;
  for (;;) {
    const open = targets.filter(
      ({ at, within }) => ![0, ...places, length].some((place) => Math.abs(place - at) <= within + NEARLY),
    );
    const isDone = length - last <= spacing + NEARLY && open.length === 0;
    if (isDone) return places;
    const furthest = Math.min(
      // The end is an opening: it is only the spacing that wants a panel before it.
      length - last <= spacing + NEARLY ? Infinity : last + spacing,
      ...open.map(({ at, within }) => at + within),
    );
    const place = furthestAllowed(allowed, furthest);
    if (place === undefined || place <= last + NEARLY) return null;
    places.push(place);
    last = place;
  }
}

function furthestAllowed(allowed: WayToReach['allowed'], limit: number): number | undefined {
  const ends = allowed.filter(([from]) => from <= limit).map(([, to]) => Math.min(to, limit));
  return ends.length > 0 ? Math.max(...ends) : undefined;
}
