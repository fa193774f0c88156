/** Where one stands and what was cut away, in words. */
import { cross, dot, negate, Z } from '../../src/geometry/vector.js';
import type { Vec3 } from '../../src/model.js';
import type { Report, ReportPenetration } from '../../src/report/schema.js';
import { ratingWords } from '../../src/report/words.js';
import type { ElementExtras } from '../../src/scene/geometry-extras.js';
import { compass } from '../../src/words/compass.js';
import { brief, oneLine } from '../../src/words/text.js';
import type { ModelView, Side } from '../state/state.js';
import { WORDS } from '../words.js';
import { outwards, type Place } from './place.js';
import type { Pose } from './standpoint.js';

const NAME_LENGTH = 48;

/** @returns `north-east`, `down` */
export function wayWords(direction: Vec3): string {
  const rise = dot(direction, Z);
  if (Math.abs(rise) > Math.SQRT1_2) return rise > 0 ? WORDS.model.up : WORDS.model.down;
  return compass(direction);
}

export interface Standing {
  readonly view: ModelView;
  readonly side: Side;
  readonly place: Place;
  readonly pose: Pose;
  readonly barrier: ReportPenetration['barrier'];
  /** Tag of the penetration; null: the barrier as a whole. */
  readonly tag: string | null;
  /** What is cut away before the face, by name. */
  readonly before: readonly string[];
}

export function captionOf({ view, side, place, pose, barrier, tag, before }: Standing): string {
  const name = brief(barrier.name || barrier.globalId, NAME_LENGTH);
  const of = tag === null ? name : `${brief(tag, NAME_LENGTH)} in ${name}`;
  const rated = ratingWords(barrier.rating);
  const way = wayWords(pose.direction);
  switch (view) {
    case 'front':
    case 'otherSide':
      return [WORDS.model.facing(side, name, rated, way), ...cutWords(before)].join(' ');
    case 'along': {
      const onRight: Side = dot(cross(pose.direction, pose.up), outwards(place, 'A')) > 0 ? 'A' : 'B';
      return WORDS.model.beside(of, way, onRight);
    }
    case 'above': {
      const foot: Side = dot(negate(pose.up), outwards(place, 'A')) > 0 ? 'A' : 'B';
      const isLevel = Math.abs(dot(place.frame.z, Z)) > Math.SQRT1_2;
      return WORDS.model.above(of, rated, isLevel ? null : foot);
    }
    case 'free':
      return WORDS.model.about(of, rated, way);
  }
}

/** Two by name, the rest by number. */
function cutWords(before: readonly string[]): string[] {
  if (before.length === 0) return [];
  return [WORDS.model.cutAway(before.slice(0, 2), Math.max(0, before.length - 2))];
}

/** `duct WX-5`, `wall W-12`; what is context goes by its name. */
export function elementWords(
  { kind, name, globalId, model }: ElementExtras,
  { barriers }: Pick<Report, 'barriers'>,
): string {
  const own = brief(oneLine(name) || globalId, NAME_LENGTH);
  const barrier = kind === 'barrier' && barriers.find((one) => one.globalId === globalId && one.model === model);
  const word = wordOf(barrier ? barrier.kind : kind);
  return word === '' || own.toLowerCase().includes(word) ? own : `${word} ${own}`;
}

const wordOf = (kind: string): string =>
  Object.hasOwn(WORDS.model.kinds, kind) ? WORDS.model.kinds[kind as keyof typeof WORDS.model.kinds] : '';
