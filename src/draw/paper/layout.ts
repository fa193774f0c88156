/** Places for text: boxes on a sheet that never overlap. */
import type { Vec2 } from '../../model.js';

/** Millimetres on paper, y downwards. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const centred = ([x, y]: Vec2, width: number, height: number): Box => ({
  x: x - width / 2,
  y: y - height / 2,
  width,
  height,
});

export const middleOf = ({ x, y, width, height }: Box): Vec2 => [x + width / 2, y + height / 2];

export const isInside = (a: Box, b: Box): boolean =>
  a.x >= b.x && a.y >= b.y && a.x + a.width <= b.x + b.width && a.y + a.height <= b.y + b.height;

export const overlap = (a: Box, b: Box, clear: number): boolean =>
  a.x < b.x + b.width + clear &&
  b.x < a.x + a.width + clear &&
  a.y < b.y + b.height + clear &&
  b.y < a.y + a.height + clear;

/** The part of a line that lies in a box (Liang and Barsky). */
export function clipped(from: Vec2, to: Vec2, box: Box): readonly [Vec2, Vec2] | undefined {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [enter, leave] = [0, 1];
  for (const [p, q] of [
    [-dx, from[0] - box.x],
    [dx, box.x + box.width - from[0]],
    [-dy, from[1] - box.y],
    [dy, box.y + box.height - from[1]],
  ] as const) {
    if (p === 0 && q < 0) return undefined;
    if (p < 0) enter = Math.max(enter, q / p);
    if (p > 0) leave = Math.min(leave, q / p);
  }
  if (enter >= leave) return undefined;
  const at = (t: number): Vec2 => [from[0] + dx * t, from[1] + dy * t];
  return [at(enter), at(leave)];
}

/** Clear space between two texts. */
export const CLEAR = 0.6;
const STEP = 2;

/** A region in which text is placed piece by piece, first come first served. */
export class Sheet {
  private readonly taken: Box[] = [];

  constructor(private readonly region: Box) {}

  /**
   * The first of the wished places that is free; else the free place nearest to the first wish. Undefined when there
   * is none, or what is to be placed is wider than the region.
   */
  place(wishes: readonly Box[]): Box | undefined {
    const found = wishes.find((box) => this.isFree(box)) ?? this.nearestFree(wishes[0]);
    if (found) this.taken.push(found);
    return found;
  }

  /** Keeps text off what is drawn there. */
  reserve(box: Box): void {
    this.taken.push(box);
  }

  private isFree(box: Box): boolean {
    return isInside(box, this.region) && this.taken.every((other) => !overlap(box, other, CLEAR));
  }

  private nearestFree(wish: Box | undefined): Box | undefined {
    if (!wish) return undefined;
    const { x, y, width, height } = this.region;
    let best: Box | undefined;
    let least = Infinity;
    for (let top = y; top + wish.height <= y + height; top += STEP)
      for (let left = x; left + wish.width <= x + width; left += STEP) {
        const distance = Math.hypot(left - wish.x, top - wish.y);
        const box = { ...wish, x: left, y: top };
        if (distance < least && this.isFree(box)) [best, least] = [box, distance];
      }
    return best;
  }
}
