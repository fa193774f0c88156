/** Places for labels with leaders: clear of each other, of marks, of other leaders, and of walls where that can be. */
import type { Vec2 } from '../../model.js';
import { type Box, CLEAR, centred, clipped, isInside, overlap } from './layout.js';

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Leader {
  readonly from: Vec2;
  readonly to: Vec2;
}

export interface Place {
  readonly box: Box;
  readonly leader: Leader;
}

/** Directions, and clear lengths of leaders, millimetres, that are tried; the shortest first. */
const DIRECTIONS = 16;
const LENGTHS = [1.2, 3, 5, 8, 12, 17, 23, 30, 38, 48] as const;
/** What a millimetre of wall under a label costs, in millimetres of leader. */
const WALL_COST = 1.5;

export class PlanLabels {
  private readonly boxes: Box[] = [];
  private readonly leaders: Leader[] = [];

  /** @param region where labels may stand @param covered millimetres of wall under a box */
  constructor(
    readonly region: Box,
    readonly covered: (box: Box) => number,
  ) {}

  take(box: Box): void {
    this.boxes.push(box);
  }

  isFree(box: Box): boolean {
    return isInside(box, this.region) && !this.boxes.some((other) => overlap(box, other, CLEAR));
  }

  /** The first of the places that is free. */
  takeFirst(places: readonly Box[]): Box | undefined {
    const box = places.find((one) => this.isFree(one) && !this.leaders.some((leader) => crossesBox(leader, one)));
    if (box) this.boxes.push(box);
    return box;
  }

  /**
   * Near an anchor, with a leader to it; undefined where all is taken.
   *
   * @param own box of the anchor's mark, which the leader starts from
   */
  takeNear(own: Box, { width, height }: Size): Place | undefined {
    const anchor: Vec2 = [own.x + own.width / 2, own.y + own.height / 2];
    let best: Place | undefined;
    let least = Infinity;
    for (const length of LENGTHS) {
      if (length >= least) break;
      for (let i = 0; i < DIRECTIONS; i++) {
        const angle = (2 * Math.PI * i) / DIRECTIONS;
        const [c, s] = [Math.cos(angle), -Math.sin(angle)];
        const reach = (half: Vec2): number =>
          Math.min(half[0] / Math.max(Math.abs(c), 1e-9), half[1] / Math.max(Math.abs(s), 1e-9));
        const out = reach([own.width / 2, own.height / 2]) + length + reach([width / 2, height / 2]);
        const box = centred([anchor[0] + c * out, anchor[1] + s * out], width, height);
        if (!this.isFree(box)) continue;
        const cost = length + WALL_COST * this.covered(box);
        if (cost >= least) continue;
        const leader = leaderOf(own, box);
        if (this.isClear(leader, own) && !this.leaders.some((other) => crossesBox(other, box)))
          [best, least] = [{ box, leader }, cost];
      }
    }
    if (best) {
      this.boxes.push(best.box);
      this.leaders.push(best.leader);
    }
    return best;
  }

  private isClear(leader: Leader, own: Box): boolean {
    return (
      !this.boxes.some((box) => box !== own && crossesBox(leader, box)) &&
      !this.leaders.some((other) => cross(leader, other))
    );
  }
}

/** From edge to edge, between the points of the two boxes that are nearest to each other. */
function leaderOf(own: Box, box: Box): Leader {
  const along = (a: number, size: number, b: number, other: number): readonly [number, number] => {
    if (a + size < b) return [a + size, b];
    if (b + other < a) return [a, b + other];
    const middle = (Math.max(a, b) + Math.min(a + size, b + other)) / 2;
    return [middle, middle];
  };
  const [x0, x1] = along(own.x, own.width, box.x, box.width);
  const [y0, y1] = along(own.y, own.height, box.y, box.height);
  return { from: [x0, y0], to: [x1, y1] };
}

function cross({ from: a, to: b }: Leader, { from: c, to: d }: Leader): boolean {
  const side = (p: Vec2, q: Vec2, r: Vec2): boolean =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]) > 0;
  return side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b);
}

/** Goes through the box by more than a touch. */
const crossesBox = ({ from, to }: Leader, { x, y, width, height }: Box): boolean =>
  clipped(from, to, {
    ...{ x: x + TOUCH, y: y + TOUCH, width: width - 2 * TOUCH, height: height - 2 * TOUCH },
  }) !== undefined;
const TOUCH = 0.05;
