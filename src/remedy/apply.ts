/** A change made to the models in memory: what is read of them stays as it was but for what the change says. */
import { nameOf, refOf } from '../element-refs.js';
import { boxOf } from '../geometry/box.js';
import { bounds, circle, rectangle } from '../geometry/polygon.js';
import { add, cross, dot, scale, sub, unit, ZERO } from '../geometry/vector.js';
import type {
  AccessCover,
  AirElement,
  Barrier,
  ChangeOpening,
  Federation,
  MoveDuct,
  NewOpening,
  Opening,
  Penetration,
  SingleChange,
  Vec3,
} from '../model.js';
import { CONTACT } from '../tolerances.js';
import { reshape, type Shift, shifted } from './reshape.js';

/** Penetrations that the changes name, with the frames in which their openings stand; those of a report will do. */
export type Named = ReadonlyMap<string, Opened>;

type Opened = Pick<Penetration, 'position' | 'frame' | 'outlines'> & {
  readonly barrier: Pick<Penetration['barrier'], 'thickness'>;
};

export type Changeable = Pick<Federation, 'origin' | 'airElements' | 'barriers' | 'accessCovers'>;

/** Choices of the brief change no model. */
export function apply<F extends Changeable>(federation: F, changes: readonly SingleChange[], named: Named): F {
  return changes.reduce((now, change) => {
    if (change.kind === 'moveDuct') return moved(now, change);
    if (change.kind === 'changeOpening') return withOpening(now, change, changedOpening(change, now, named));
    if (change.kind === 'newOpening') return withOpening(now, change, newOpening(change, now, named));
    return now;
  }, federation);
}

// ------------------------------------------------------------------------------------------------------------- ductwork

function moved<F extends Changeable>(federation: F, { by, elements, lengths }: MoveDuct): F {
  const along = new Set(elements.map(nameOf));
  const ends = new Map(lengths.map((one) => [nameOf(one), sub(one.end, federation.origin)]));
  const goes = <T extends AirElement | AccessCover>(element: T): T =>
    along.has(nameOf(element)) ? { ...element, bodies: element.bodies.map((body) => shifted(body, by)) } : element;
  return {
    ...federation,
    airElements: federation.airElements.map((element) => {
      if (along.has(nameOf(element)))
        return { ...goes(element), ports: element.ports.map((port) => ({ ...port, at: add(port.at, by) })) };
      const end = ends.get(nameOf(element));
      return end ? drawnOut(element, by, end) : element;
    }),
    ...(federation.accessCovers && { accessCovers: federation.accessCovers.map(goes) }),
  };
}

/** The half that the end belongs to goes along, the other stays. */
function drawnOut(element: AirElement, by: Vec3, end: Vec3): AirElement {
  const { min, max } = boxOf(element.bodies);
  const middle = scale(add(min, max), 0.5);
  const toEnd = sub(end, middle);
  // What lies along the way is told by that alone, also where another move came first.
  const way = element.kind === 'flexible' ? toEnd : scale(by, dot(by, toEnd));
  const goesAlong = (at: Vec3): boolean => dot(sub(at, middle), way) > 0;
  const shift: Shift = (at) => (goesAlong(at) ? by : ZERO);
  return {
    ...element,
    bodies: element.bodies.map((body) => reshape(body, shift)),
    ports: element.ports.map((port) => ({ ...port, at: add(port.at, shift(port.at)) })),
  };
}

// ------------------------------------------------------------------------------------------------------------- openings

const withOpening = <F extends Changeable>(
  federation: F,
  { barrier }: ChangeOpening | NewOpening,
  changed: Barrier,
): F => ({
  ...federation,
  barriers: federation.barriers.map((one) => (nameOf(one) === nameOf(barrier) ? changed : one)),
});

const barrierOf = (federation: Changeable, { barrier }: ChangeOpening | NewOpening): Barrier =>
  federation.barriers.find((one) => nameOf(one) === nameOf(barrier))!;

function changedOpening(change: ChangeOpening, federation: Changeable, named: Named): Barrier {
  const barrier = barrierOf(federation, change);
  const penetration = named.get(change.penetration)!;
  const shift = edgesOutwards(change, penetration, federation.origin);
  const { opening } = change;
  if (opening === null) return { ...barrier, bodies: barrier.bodies.map((body) => reshape(body, shift)) };
  const openings = barrier.openings.map((one) =>
    one.globalId === opening.globalId ? { ...one, bodies: one.bodies.map((body) => reshape(body, shift)) } : one,
  );
  return { ...barrier, openings };
}

/** Corners on each side of the opening's middle go with that side; those of its barrier's body beyond it stay. */
function edgesOutwards({ sides, diameter, opening }: ChangeOpening, p: Opened, origin: Vec3): Shift {
  const { right, up } = p.frame;
  const [outline] = p.outlines.opening;
  const position = sub(p.position, origin);
  const { min, max } = bounds([outline!]);
  const [cx, cy] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  const [rx, ry] = [(max[0] - min[0]) / 2, (max[1] - min[1]) / 2];
  return (at) => {
    const d = sub(at, position);
    const [x, y] = [dot(d, right) - cx, dot(d, up) - cy];
    if (opening === null && (Math.abs(x) > rx + CONTACT || Math.abs(y) > ry + CONTACT)) return ZERO;
    if (diameter !== 0) return add(scale(right, (x * diameter) / (2 * rx)), scale(up, (y * diameter) / (2 * ry)));
    return add(scale(right, x > 0 ? sides.right : -sides.left), scale(up, y > 0 ? sides.top : -sides.bottom));
  };
}

function newOpening(change: NewOpening, federation: Changeable, named: Named): Barrier {
  const barrier = barrierOf(federation, change);
  const { frame, barrier: facts } = named.get(change.penetration)!;
  const { width, height, shape } = change;
  const depth = (facts.thickness ?? 0) + 2 * STANDS_OUT;
  const x = unit(change.along);
  const centre = sub(change.centre, federation.origin);
  const opening: Opening = {
    ...refOf(barrier),
    globalId: `new opening ${change.penetration}`,
    name: 'New opening',
    entity: 'IFCOPENINGELEMENT',
    storey: barrier.storey,
    bodies: [
      {
        kind: 'prism',
        frame: { origin: add(centre, scale(frame.normal, -depth / 2)), x, y: cross(frame.normal, x), z: frame.normal },
        outline: shape === 'circular' ? circle(width) : rectangle(width, height),
        voids: [],
        sweep: scale(frame.normal, depth),
      },
    ],
    filledBy: [],
    doors: [],
  };
  const stays = barrier.openings.filter((one) => one.globalId !== change.instead?.globalId);
  return { ...barrier, openings: [...stays, opening] };
}

/** Of both faces, so that it goes right through. */
const STANDS_OUT = 100;
