/**
 * Elements with the same GlobalId, in one file or in several. In the same place they are one element, exported twice, and
 * count once; elsewhere they are two, and one of the files is wrong or out of date. Both are said.
 */
import { fileUnder } from '../collect.js';
import { boxDifference, boxOf } from '../geometry/box.js';
import { distance, lerp } from '../geometry/vector.js';
import type { AirElement, Barrier, Body, ModelInfo, Obstacle, OtherService, Problem, Rating } from '../model.js';
import { SAME_PLACE } from '../tolerances.js';

interface Parts {
  readonly airElements: readonly AirElement[];
  readonly otherServices: readonly OtherService[];
  readonly barriers: readonly Barrier[];
  readonly obstacles: readonly Obstacle[];
}

interface Placed {
  readonly model: string;
  readonly globalId: string;
  readonly name: string;
  readonly bodies: readonly Body[];
}

/** Each element once, the first of the models before the others, and what is to be said, by model. */
export function withoutRepeats(
  parts: Parts,
  models: readonly ModelInfo[],
): Parts & { readonly problems: ReadonlyMap<string, readonly Problem[]> } {
  const problems = new Map<string, Problem[]>();
  const note = (model: string, problem: Problem) => fileUnder(problems, model, problem);
  const say: Say = (element, code, other, rest) => {
    const file = models.find((m) => m.id === other.model)?.file ?? other.model;
    const where = other.model === element.model ? 'a second time in this file' : `in ${file} too`;
    const message = `"${element.name}" stands ${where}, ${rest}`;
    note(element.model, { code, globalId: element.globalId, message });
  };
  return {
    airElements: eachOnce(parts.airElements, say, (kept) => kept),
    otherServices: eachOnce(parts.otherServices, say, (kept) => kept),
    barriers: eachOnce(parts.barriers, say, (kept, dropped) => joinedBarrier(kept, dropped, say)),
    // Which of two chairs is out of date is nobody's question here.
    obstacles: eachOnce(
      parts.obstacles,
      () => {},
      (kept) => kept,
    ),
    problems,
  };
}

type Say = (element: Placed, code: string, other: Placed, rest: string) => void;

function eachOnce<T extends Placed>(elements: readonly T[], say: Say, join: (kept: T, dropped: T) => T): T[] {
  const byGlobalId = new Map<string, number[]>();
  const kept: T[] = [];
  for (const element of elements) {
    const same = byGlobalId.get(element.globalId);
    if (!same) {
      byGlobalId.set(element.globalId, [kept.push(element) - 1]);
      continue;
    }
    const twin = same.find((i) => isInOnePlace(kept[i]!, element));
    if (twin !== undefined) {
      say(element, 'element-repeated', kept[twin]!, 'in the same place; it is counted once.');
      kept[twin] = join(kept[twin]!, element);
      continue;
    }
    const other = kept[same[0]!]!;
    const apart = Math.round(distance(middleOf(other), middleOf(element)));
    say(
      element,
      'globalid-repeated',
      other,
      `with the same GlobalId but ${apart} mm away; both are counted, one may be out of date.`,
    );
    same.push(kept.push(element) - 1);
  }
  return kept;
}

const isInOnePlace = (a: Placed, b: Placed): boolean => boxDifference(boxOf(a.bodies), boxOf(b.bodies)) <= SAME_PLACE;

function middleOf({ bodies }: Placed) {
  const { min, max } = boxOf(bodies);
  return lerp(min, max, 0.5);
}

/** What one file does not say of a barrier the other may; where they contradict each other nothing is known. */
function joinedBarrier(kept: Barrier, dropped: Barrier, say: Say): Barrier {
  const own = new Set(kept.openings.map((opening) => opening.globalId));
  return {
    ...kept,
    storey: kept.storey ?? dropped.storey,
    openings: [...kept.openings, ...dropped.openings.filter((opening) => !own.has(opening.globalId))],
    rating: joinedRating(kept, dropped, say),
    compartmentation: kept.compartmentation ?? dropped.compartmentation,
    // Where one has none, those of the other with all that they tell.
    ...(kept.layers.length === 0 && {
      layers: dropped.layers,
      layersFrom: dropped.layersFrom,
      boards: dropped.boards,
    }),
    construction: kept.construction === 'unknown' ? dropped.construction : kept.construction,
    extendToStructure: kept.extendToStructure ?? dropped.extendToStructure,
    drawing: kept.drawing ?? dropped.drawing,
  };
}

function joinedRating(kept: Barrier, dropped: Barrier, say: Say): Rating {
  const [a, b] = [kept.rating, dropped.rating];
  // What a file states goes before a drawing, which stood in where the other file states nothing.
  if (b.state === 'unstated' || (b.from === 'brief' && a.state !== 'unstated')) return a;
  if (a.state === 'unstated' || a.from === 'brief') return b;
  if (a.text === b.text && a.state === b.state) return a;
  const [one, other] = [a, b].map(({ text }) => (text === null ? 'not required' : `"${text}"`));
  say(dropped, 'rating-disagrees', kept, `rated ${one} there and ${other} here; the rating is taken as not known.`);
  return {
    state: 'unreadable',
    text: `${one} and ${other}`,
    loadbearing: null,
    integrity: null,
    insulation: null,
    duration: null,
    from: a.from,
  };
}
