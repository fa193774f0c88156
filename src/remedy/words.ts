/** A change in the words of the site. */
import { nameOf } from '../element-refs.js';
import { dot } from '../geometry/vector.js';
import type {
  Change,
  ChangeOpening,
  Choose,
  ElementRef,
  MoveDuct,
  NewOpening,
  Penetration,
  Side,
  SingleChange,
  Vec3,
} from '../model.js';
import { compass } from '../words/compass.js';
import { capital, counted, listed, number, oneLine } from '../words/text.js';
import type { Building } from './building.js';
import { sidesAlongAxis, sidesOf } from './faults.js';
import { singlesOf } from './singles.js';

const ENGINEER = 'structural engineer to agree';

/** @param at where the finding is; null: along a run */
export function remedyWords(change: Change, at: Penetration | null, building: Building): string {
  const parts = singlesOf(change);
  const moves = parts.filter((one) => one.kind === 'moveDuct');
  const rest = parts.filter((one) => one.kind !== 'moveDuct');
  const said = [...movesWords(moves, at, building), ...rest.flatMap((one) => wordsOf(one, at, building))];
  return `${capital(said.join('; '))}.`;
}

/** Both ways in one, where the same goes along each way and nothing becomes longer or shorter. */
function movesWords(moves: readonly MoveDuct[], at: Penetration | null, building: Building): string[] {
  const [one, other] = moves;
  const isOne =
    one && other && one.lengths.length + other.lengths.length === 0 && sameRefs(one.elements, other.elements);
  return isOne ? [moveWords([one, other], at, building)] : moves.map((move) => moveWords([move], at, building));
}

const sameRefs = (a: readonly ElementRef[], b: readonly ElementRef[]): boolean =>
  a.map(nameOf).sort().join() === b.map(nameOf).sort().join();

function wordsOf(change: Exclude<SingleChange, MoveDuct>, at: Penetration | null, building: Building): string[] {
  switch (change.kind) {
    case 'changeOpening':
      return openingWords(change, at, building);
    case 'newOpening':
      return [newOpeningWords(change, at, building)];
    default:
      return [choiceWords(change, building)];
  }
}

// ------------------------------------------------------------------------------------------------------------- ductwork

/** @param moves of the same ductwork, one after the other */
function moveWords(moves: readonly MoveDuct[], at: Penetration | null, building: Building): string {
  const { elements } = moves[0]!;
  const name = (ref: ElementRef): string => oneLine(building.element(ref)?.name ?? '') || ref.globalId;
  const along = elements.length - 1;
  const said = [
    ...(along > 0 ? [`${counted(along, 'piece')} ${along === 1 ? 'moves' : 'move'} along`] : []),
    ...moves
      .flatMap(({ lengths }) => lengths)
      .map((one) =>
        one.by === 0
          ? `${name(one)} takes it up`
          : `${name(one)} becomes ${number(Math.abs(one.by))} mm ${one.by > 0 ? 'longer' : 'shorter'}`,
      ),
  ];
  const first = elements[0]!;
  const way = listed(moves.map(({ by }) => `${number(Math.hypot(...by))} mm ${whither(by, first, at, building)}`));
  return `move ${name(first)} ${way}${said.length > 0 ? ` (${said.join(', ')})` : ''}`;
}

/** Up and down, left and right as the findings have them, compass words for what stands upright. */
function whither(by: Vec3, duct: ElementRef, at: Penetration | null, building: Building): string {
  if (Math.abs(by[2]) > Math.hypot(by[0], by[1])) return by[2] > 0 ? 'up' : 'down';
  const element = building.element(duct);
  const isOnPlan = at ? at.barrier.kind !== 'wall' : element && sidesAlongAxis(element, building)?.isOnPlan;
  const right = at ? at.frame.right : element && sidesAlongAxis(element, building)?.sides.right;
  if (isOnPlan || !right) return `to the ${compass(by)}`;
  return dot(by, right) > 0 ? 'to the right' : 'to the left';
}

// ------------------------------------------------------------------------------------------------------------- openings

const SIDES: readonly Side[] = ['left', 'right', 'top', 'bottom'];

function openingWords(change: ChangeOpening, at: Penetration | null, { penetrations }: Building): string[] {
  const p = penetrations.get(change.penetration)!;
  const { sides, diameter } = change;
  const where = elsewhere(p, at);
  if (diameter !== 0) {
    const size = `Ø ${number(p.opening!.width + diameter)} mm`;
    return diameter > 0
      ? [`widen the round opening${where} to ${size} (${ENGINEER})`]
      : [`rebuild the ${p.barrier.kind} round the opening${where} to ${size} in its rated construction`];
  }
  const wide = SIDES.filter((side) => sides[side] > 0);
  const built = SIDES.filter((side) => sides[side] < 0);
  const by = (side: Side) => `${number(Math.abs(sides[side]))} mm`;
  return [
    ...(wide.length === 0
      ? []
      : [`widen the opening${where} ${listed(wide.map((s) => `${by(s)} ${onSide(s, p)}`))} (${ENGINEER})`]),
    ...(built.length === 0
      ? []
      : [
          `rebuild ${listed(built.map((s, i) => `${by(s)}${i === 0 ? ` of ${p.barrier.kind}` : ''} ${onSide(s, p)}`))}${where} in its rated construction`,
        ]),
  ];
}

const elsewhere = (p: Penetration, at: Penetration | null): string =>
  at?.id === p.id ? '' : ` in ${oneLine(p.barrier.name) || p.barrier.globalId} (${p.tag})`;

function onSide(side: Side, { barrier, frame }: Penetration): string {
  if (barrier.kind === 'wall') return side === 'left' || side === 'right' ? `on the ${side}` : `at the ${side}`;
  return `on the ${compass(sidesOf(frame)[side])}`;
}

function newOpeningWords(change: NewOpening, at: Penetration | null, { penetrations }: Building): string {
  const p = penetrations.get(change.penetration)!;
  const { shape, width, height, instead } = change;
  const size = shape === 'circular' ? `Ø ${number(width)} mm` : `${number(width)} × ${number(height)} mm`;
  const kind = shape === 'circular' ? 'a round opening' : 'an opening';
  const rest = instead
    ? `, rebuild the rest of the present one in the rated construction of the ${p.barrier.kind}`
    : '';
  return `make ${kind} of ${size} about the duct${elsewhere(p, at)} (${ENGINEER})${rest}`;
}

// -------------------------------------------------------------------------------------------------------------- choices

function choiceWords({ kind, testedSystem, fixing, layers }: Choose, { systems }: Building): string {
  const system = systems.find(({ id }) => id === testedSystem);
  const name = oneLine(system?.name ?? testedSystem);
  const held = oneLine(system?.fixings.find(({ id }) => id === fixing)?.name ?? '');
  const coats = layers === null ? '' : counted(layers, 'layer');
  if (kind === 'chooseFixing') return `hold ${name} with ${held} here`;
  if (kind === 'chooseLayers') return `put on ${coats} of ${name} here`;
  if (kind === 'chooseDetail') return `build another tested detail of ${name} here`;
  return `choose ${name} here${coats ? `, ${coats}` : ''}${held ? `, held with ${held}` : ''}`;
}
