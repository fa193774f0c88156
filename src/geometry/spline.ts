/** B-spline curves, rational or not, as points (de Boor's algorithm in homogeneous coordinates). */
import type { Vec3 } from '../model.js';
import { distance, lerp } from './vector.js';

export interface Spline {
  readonly degree: number;
  readonly points: readonly Vec3[];
  /** One for each point; all 1 where the curve is not rational. */
  readonly weights: readonly number[];
  /** Every knot as often as it counts: points + degree + 1 of them. */
  readonly knots: readonly number[];
}

function splinePoint({ degree, points, weights, knots }: Spline, t: number): Vec3 {
  let span = degree;
  while (span < points.length - 1 && t >= knots[span + 1]!) span++;
  const d = Array.from({ length: degree + 1 }, (_, j) => {
    const i = span - degree + j;
    const [p, w] = [points[i]!, weights[i]!];
    return [p[0] * w, p[1] * w, p[2] * w, w];
  });
  for (let r = 1; r <= degree; r++)
    for (let j = degree; j >= r; j--) {
      const i = span - degree + j;
      const width = knots[i + degree - r + 1]! - knots[i]!;
      const a = width > 0 ? (t - knots[i]!) / width : 0;
      d[j] = d[j]!.map((v, k) => (1 - a) * d[j - 1]![k]! + a * v);
    }
  const [x, y, z, w] = d[degree]! as [number, number, number, number];
  return [x / w, y / w, z / w];
}

/** Each knot span is halved at most this often. */
const MOST_HALVINGS = 10;

/** Points from one parameter to another, chords within `sagitta` of the curve. */
export function splinePoints(spline: Spline, from: number, to: number, sagitta: number): Vec3[] {
  const [low, high] = from < to ? [from, to] : [to, from];
  const inner = [...new Set(spline.knots)].filter((k) => k > low && k < high);
  const stops = [low, ...inner, high];
  const out: Vec3[] = [splinePoint(spline, low)];
  const draw = (a: number, pa: Vec3, b: number, pb: Vec3, halvings: number): void => {
    const middle = (a + b) / 2;
    const pm = splinePoint(spline, middle);
    // The first two halvings are always made: an S may pass through the middle of its chord.
    if (halvings < 2 || (halvings < MOST_HALVINGS && distance(pm, lerp(pa, pb, 0.5)) > sagitta)) {
      draw(a, pa, middle, pm, halvings + 1);
      draw(middle, pm, b, pb, halvings + 1);
    } else out.push(pb);
  };
  for (let i = 0; i + 1 < stops.length; i++)
    draw(stops[i]!, out[out.length - 1]!, stops[i + 1]!, splinePoint(spline, stops[i + 1]!), 0);
  return from < to ? out : out.reverse();
}
