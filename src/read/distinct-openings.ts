import type { Barrier, Opening } from '../model.js';

/** An opening of a roof is listed with each slab of that roof, and still is one; its place tells repeated GlobalIds apart. */
export function distinctOpenings(barriers: readonly Barrier[]): readonly Opening[] {
  const openings = barriers.flatMap((barrier) => barrier.openings);
  // Of a repeated key a map keeps the first place and the last value: the first opening must stay.
  const byIdentity = new Map(openings.toReversed().map((opening) => [identityOf(opening), opening]));
  return [...byIdentity.values()].reverse();
}

const identityOf = ({ model, globalId, bodies: [body] }: Opening): string =>
  JSON.stringify([model, globalId, body?.kind === 'mesh' ? [...body.positions.subarray(0, 3)] : body?.frame.origin]);
