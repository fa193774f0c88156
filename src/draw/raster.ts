/**
 * A picture made of triangles, lines and dots, with depth: no GPU, no browser. Drawn at twice the size and halved, so
 * that edges are smooth.
 */
import type { Rgb } from './palette.js';

/** Pixels of the drawing for one of the picture, each way. */
export const OVERSAMPLING = 2;

export interface Canvas {
  /** Of the drawing, before it is halved. */
  readonly width: number;
  readonly height: number;
  readonly colour: Uint8Array;
  /** One over the distance from the eye; 0 where nothing is drawn. */
  readonly nearness: Float32Array;
}

/** On the picture: x, y in drawing pixels, one over the distance, and what is carried along for `leftOut`. */
export interface Corner {
  readonly x: number;
  readonly y: number;
  readonly inverse: number;
  readonly carried: readonly [number, number, number];
}

export function blankCanvas(width: number, height: number, ground: Rgb): Canvas {
  const [w, h] = [width * OVERSAMPLING, height * OVERSAMPLING];
  const colour = new Uint8Array(3 * w * h);
  colour.set(ground);
  for (let done = 3; done < colour.length; done *= 2) colour.copyWithin(done, 0, done);
  return { width: w, height: h, colour, nearness: new Float32Array(w * h) };
}

/** What a surface has holes of; asked with what its corners carry. */
export interface Cutout {
  /** False only where nothing between these least and largest u and v is left out. */
  touches(minU: number, minV: number, maxU: number, maxV: number): boolean;
  leavesOut(u: number, v: number, w: number): boolean;
}

/** The nearness, and what is carried over the distance, are linear on the picture. */
export function fillTriangle(
  canvas: Canvas,
  a: Corner,
  b: Corner,
  c: Corner,
  [red, green, blue]: Rgb,
  cutout?: Cutout,
): void {
  const { width, height, colour, nearness } = canvas;
  const top = Math.max(0, Math.ceil(Math.min(a.y, b.y, c.y) - 0.5));
  const bottom = Math.min(height - 1, Math.floor(Math.max(a.y, b.y, c.y) - 0.5));
  const doubled = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  if (top > bottom || !(Math.abs(doubled) > 1e-9)) return;
  const plane = (fa: number, fb: number, fc: number): Plane => {
    const x = ((fb - fa) * (c.y - a.y) - (fc - fa) * (b.y - a.y)) / doubled;
    const y = ((fc - fa) * (b.x - a.x) - (fb - fa) * (c.x - a.x)) / doubled;
    return { x, y, at: fa - x * a.x - y * a.y };
  };
  const near = plane(a.inverse, b.inverse, c.inverse);
  const carried = (i: 0 | 1 | 2) => plane(a.carried[i] * a.inverse, b.carried[i] * b.inverse, c.carried[i] * c.inverse);
  const [u, v, w] = cutout ? [carried(0), carried(1), carried(2)] : [near, near, near];
  for (let row = top; row <= bottom; row++) {
    const y = row + 0.5;
    const [p, q, r] = [crossing(a, b, y), crossing(b, c, y), crossing(c, a, y)];
    const left = Math.min(p ?? Infinity, q ?? Infinity, r ?? Infinity);
    const right = Math.max(p ?? -Infinity, q ?? -Infinity, r ?? -Infinity);
    const first = Math.max(0, Math.ceil(left - 0.5));
    const last = Math.min(width - 1, Math.ceil(right - 0.5) - 1);
    const isHoled = cutout !== undefined && touchesRow(cutout, near, u, v, first + 0.5, last + 0.5, y);
    for (let column = first; column <= last; column++) {
      const x = column + 0.5;
      const inverse = near.at + near.x * x + near.y * y;
      const i = row * width + column;
      if (inverse <= nearness[i]!) continue;
      if (
        isHoled &&
        cutout.leavesOut(valueAt(u, x, y) / inverse, valueAt(v, x, y) / inverse, valueAt(w, x, y) / inverse)
      )
        continue;
      nearness[i] = inverse;
      colour[3 * i] = red;
      colour[3 * i + 1] = green;
      colour[3 * i + 2] = blue;
    }
  }
}

/** Along a row what is carried only grows or only shrinks, so its ends bound it. */
function touchesRow(cutout: Cutout, near: Plane, u: Plane, v: Plane, from: number, to: number, y: number): boolean {
  const [n0, n1] = [valueAt(near, from, y), valueAt(near, to, y)];
  const [u0, u1, v0, v1] = [
    valueAt(u, from, y) / n0,
    valueAt(u, to, y) / n1,
    valueAt(v, from, y) / n0,
    valueAt(v, to, y) / n1,
  ];
  return cutout.touches(Math.min(u0, u1), Math.min(v0, v1), Math.max(u0, u1), Math.max(v0, v1));
}

interface Plane {
  readonly x: number;
  readonly y: number;
  readonly at: number;
}
const valueAt = (plane: Plane, x: number, y: number): number => plane.at + plane.x * x + plane.y * y;

/** Where an edge passes the middle of a row. */
const crossing = (p: Corner, q: Corner, y: number): number | undefined =>
  p.y <= y === q.y <= y ? undefined : p.x + ((y - p.y) / (q.y - p.y)) * (q.x - p.x);

/** Lines lie on the surfaces whose edges they are: this much nearer, as a share of the distance, they win. */
const LIFT = 0.002;

/** @param thickness in pixels of the picture */
export function drawLine(canvas: Canvas, a: Corner, b: Corner, colour: Rgb, thickness: number): void {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const steps = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
  if (steps > 1e5) return; // an edge that passes the eye: its corners were clipped to a sliver of the picture
  for (let i = 0; i <= steps; i++) {
    const t = i / steps;
    const inverse = a.inverse + (b.inverse - a.inverse) * t;
    stamp(canvas, a.x + dx * t, a.y + dy * t, (thickness * OVERSAMPLING) / 2, colour, inverse * (1 + LIFT));
  }
}

/** A round dot; over everything where no nearness is given. Radius in drawing pixels. */
export function stamp(canvas: Canvas, x: number, y: number, radius: number, colour: Rgb, inverse = Infinity): void {
  const { width, height, nearness } = canvas;
  const [top, bottom] = [Math.max(0, Math.ceil(y - radius - 0.5)), Math.min(height - 1, Math.floor(y + radius - 0.5))];
  for (let row = top; row <= bottom; row++) {
    const half = Math.sqrt(Math.max(0, radius ** 2 - (row + 0.5 - y) ** 2));
    const last = Math.min(width - 1, Math.floor(x + half - 0.5));
    for (let column = Math.max(0, Math.ceil(x - half - 0.5)); column <= last; column++) {
      const i = row * width + column;
      if (inverse >= nearness[i]!) paint(canvas, i, colour);
    }
  }
}

function paint({ colour }: Canvas, i: number, [red, green, blue]: Rgb): void {
  colour[3 * i] = red;
  colour[3 * i + 1] = green;
  colour[3 * i + 2] = blue;
}

/** Over everything; in pixels of the picture. */
export function fillBox(canvas: Canvas, x: number, y: number, width: number, height: number, colour: Rgb): void {
  const edge = (v: number, most: number) => Math.min(most, Math.max(0, Math.round(v * OVERSAMPLING)));
  for (let row = edge(y, canvas.height); row < edge(y + height, canvas.height); row++)
    for (let column = edge(x, canvas.width); column < edge(x + width, canvas.width); column++)
      paint(canvas, row * canvas.width + column, colour);
}

/** Red, green, blue of every pixel of the picture, row by row from the top. */
export function halved({ width, height, colour }: Canvas): Uint8Array {
  const [w, h] = [width / OVERSAMPLING, height / OVERSAMPLING];
  const picture = new Uint8Array(3 * w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const first = 3 * (2 * y * width + 2 * x);
      const below = first + 3 * width;
      for (let c = 0; c < 3; c++)
        picture[3 * (y * w + x) + c] =
          (colour[first + c]! + colour[first + 3 + c]! + colour[below + c]! + colour[below + 3 + c]! + 2) >> 2;
    }
  return picture;
}
