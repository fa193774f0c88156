/** Measuring between two points: which is asked for, and what came of it. */
import type { Vec2, Vec3 } from '../../src/model.js';
import { quantity } from '../format.js';
import type { Side } from '../state/state.js';
import { WORDS } from '../words.js';
import { type Axes, distanceBetween } from './measure.js';
import type { Dimension } from './overlay.js';
import { ductOnFace, onFace, type Place } from './place.js';
import { WORLD_AXES } from './standpoint.js';

type Step =
  | { readonly kind: 'off' }
  | { readonly kind: 'first' }
  | { readonly kind: 'second'; readonly from: Vec3 }
  | { readonly kind: 'done'; readonly from: Vec3; readonly to: Vec3 };

export class Measuring {
  private step: Step = { kind: 'off' };
  private missed = false;
  /** What a click would choose. */
  hovered: Vec3 | undefined;

  get isOn(): boolean {
    return this.step.kind !== 'off';
  }

  start(): void {
    this.step = { kind: 'first' };
    this.missed = false;
  }

  end(): void {
    this.step = { kind: 'off' };
    this.hovered = undefined;
  }

  /** @param at undefined: nothing is there */
  choose(at: Vec3 | undefined): void {
    this.missed = at === undefined;
    if (!at) return;
    this.step =
      this.step.kind === 'second' ? { kind: 'done', from: this.step.from, to: at } : { kind: 'second', from: at };
  }

  between([from, to]: readonly [Vec3, Vec3]): void {
    this.step = { kind: 'done', from, to };
    this.missed = false;
  }

  /** @param place whose barrier gives the axes; undefined: those of the world */
  words(place: Place | undefined): string {
    if (this.missed) return WORDS.model.measureNothing;
    if (this.step.kind !== 'done')
      return this.step.kind === 'second' ? WORDS.model.measureSecond : WORDS.model.measureFirst;
    const { from, to } = this.step;
    const { total, right, up, normal } = distanceBetween(from, to, axesOf(place));
    const mm = (value: number): string => quantity(Math.abs(value), 'mm');
    const along = { right: mm(right), up: mm(up), normal: mm(normal) };
    return place ? WORDS.model.measured(mm(total), along) : WORDS.model.measuredAlone(mm(total), along);
  }

  get dimensions(): Dimension[] {
    if (this.step.kind !== 'done') return [];
    const { from, to } = this.step;
    const { total } = distanceBetween(from, to, WORLD_AXES);
    return [{ kind: 'dimension', from, to, text: quantity(total, 'mm') }];
  }

  get points(): Vec3[] {
    return [
      ...(this.step.kind === 'second' ? [this.step.from] : []),
      ...(this.hovered && this.isOn ? [this.hovered] : []),
    ];
  }
}

const axesOf = (place: Place | undefined): Axes =>
  place ? { right: place.frame.x, up: place.frame.y, normal: place.frame.z } : WORLD_AXES;

/** From each corner of the duct to the nearest of the opening, on the face; what can be measured without a mouse. */
export function cornerPairs(place: Place, side: Side): (readonly [Vec3, Vec3])[] {
  const ducts = ductOnFace(place, side).flat();
  const corners = place.opening.flat();
  if (corners.length === 0 || ducts.length > MOST_CORNERS) return [];
  const far = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
  return ducts.map((p) => {
    const nearest = corners.reduce((best, q) => (far(p, q) < far(p, best) ? q : best));
    return [onFace(place, side, p), onFace(place, side, nearest)] as const;
  });
}
/** A round duct has no corners to speak of. */
const MOST_CORNERS = 8;
