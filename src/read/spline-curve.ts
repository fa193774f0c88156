/** B-spline and Bézier curves of a file. */
import { type Spline, splinePoints } from '../geometry/spline.js';
import { ARC_SAGITTA } from '../tolerances.js';
import type { Curve } from './curves.js';
import type { Placements } from './placement.js';
import type { Line } from './step-file.js';
import { num, nums, refs } from './value.js';

/** Undefined where its degree, points and knots do not fit together. */
export function splineCurve(placements: Placements, line: Line): Curve | undefined {
  const points = refs(line.ControlPointsList).map((p) => placements.point(p));
  const degree = num(line.Degree) ?? 0;
  if (degree < 1 || points.length <= degree) return undefined;
  const values = nums(line.Knots);
  // Bézier curves of IFC2X3 have no knots of their own: whole numbers, each as often as the degree.
  const bezier = Array.from({ length: (points.length - 1) / degree + 1 }, (_, i) => i);
  const counts = nums(line.KnotMultiplicities);
  const knots =
    values.length > 0
      ? values.flatMap((k, i) => Array.from({ length: counts[i] ?? 1 }, () => k))
      : [0, ...bezier.flatMap((k) => Array.from({ length: degree }, () => k)), bezier.length - 1];
  if (knots.length !== points.length + degree + 1) return undefined;
  const given = nums(line.WeightsData ?? line.Weights);
  const weights = given.length === points.length ? given : points.map(() => 1);
  const curve: Spline = { degree, points, weights, knots };
  return {
    from: knots[degree]!,
    to: knots[points.length]!,
    points: (a, b) => splinePoints(curve, a, b, ARC_SAGITTA),
  };
}
