/** The combinations in which the ways of a duct and the kinds of work at openings may be used, and what limits each. */
import { dot } from '../geometry/vector.js';
import type { MayChange } from './allowed.js';
import type { Range } from './axis.js';
import type { Need } from './faults.js';
import type { Track } from './moves.js';

export interface Combination {
  readonly shift: readonly [Range, Range];
  readonly widenBy: number;
  readonly rebuildBy: number;
}

const SIGNS = [0, 1, -1] as const;
/** Of every need one way is taken; more choices than this are not gone through. */
const MOST_CHOICES = 16;
const ALONG = 0.999;

/** Each leaves out some of what may be done, so that what another duct or wall forbids has a next best. */
export function combinations(
  tracks: readonly [Track, Track],
  needs: readonly Need[],
  allowed: MayChange,
): Combination[] {
  const work = [0, allowed.widenBy].flatMap((widenBy) =>
    [0, allowed.rebuildBy].map((rebuildBy) => ({ widenBy, rebuildBy })),
  );
  return choicesOf(needs).flatMap((chosen) => {
    const asked = tracks.map((track) => askedOf(track, chosen));
    return SIGNS.flatMap((x) =>
      SIGNS.flatMap((y): Combination[] => {
        const shift = [rangeOf(tracks[0], x, asked[0]!), rangeOf(tracks[1], y, asked[1]!)] as const;
        return isEmpty(shift[0]) || isEmpty(shift[1]) ? [] : work.map((one) => ({ shift, ...one }));
      }),
    );
  });
}

const isEmpty = ({ from, to }: Range): boolean => from > to;

function choicesOf(needs: readonly Need[]): Need[] {
  let choices: Need[] = [[]];
  for (const need of needs) choices = choices.flatMap((chosen) => need.map((one) => [...chosen, one]));
  return choices.slice(0, MOST_CHOICES);
}

/** All that was chosen and runs along the way, one direction or the other. */
function askedOf({ way }: Track, chosen: Need): Range {
  const along = (sign: 1 | -1) => chosen.filter((need) => sign * dot(need.way, way) > ALONG).map(({ by }) => by);
  return { from: Math.max(...along(1)), to: -Math.max(...along(-1)) };
}

function rangeOf({ range }: Track, sign: -1 | 0 | 1, asked: Range): Range {
  const own = sign === 0 ? { from: 0, to: 0 } : sign > 0 ? { from: 0, to: range.to } : { from: range.from, to: 0 };
  return { from: Math.max(own.from, asked.from), to: Math.min(own.to, asked.to) };
}
