/** What is written over the canvas as ISO 129 has it: dimension lines with ticks, arrows with millimetres. */
import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { Vec2, Vec3 } from '../../src/model.js';

export interface Dimension {
  readonly kind: 'dimension' | 'arrow';
  readonly from: Vec3;
  readonly to: Vec3;
  readonly text: string;
}

/** Half of a tick, an arrowhead, a gap under the text; pixels. */
const [TICK, HEAD, GAP] = [5, 10, 5];

export function overlay(
  dimensions: readonly Dimension[],
  points: readonly Vec3[],
  project: (p: Vec3) => Vec2 | undefined,
): SVGTemplateResult {
  return svg`${dimensions.map(({ kind, from, to, text }) => {
    const [a, b] = [project(from), project(to)];
    return a && b ? drawn(kind, a, b, text) : nothing;
  })}
  ${points.map((p) => {
    const q = project(p);
    return q
      ? svg`<circle cx=${q[0]} cy=${q[1]} r="5" fill="none" stroke="var(--accent)" stroke-width="2"></circle>`
      : nothing;
  })}`;
}

function drawn(kind: Dimension['kind'], a: Vec2, b: Vec2, text: string): SVGTemplateResult {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = long > 0 ? [(b[0] - a[0]) / long, (b[1] - a[1]) / long] : [1, 0];
  // The text reads from the left, or from below where the line stands upright.
  const isBack = ux < -1e-6 || (Math.abs(ux) <= 1e-6 && uy > 0);
  const turn = (Math.atan2(isBack ? -uy : uy, isBack ? -ux : ux) * 180) / Math.PI;
  const [mx, my] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return svg`<g stroke="var(--ink)" stroke-width="1.25" fill="none">
      <path d="M${a[0]} ${a[1]}L${b[0]} ${b[1]}"></path>
      ${kind === 'dimension' ? svg`${tick(a, ux, uy)}${tick(b, ux, uy)}` : head(b, ux, uy, long)}
    </g>
    <text x=${mx} y=${my - GAP} transform="rotate(${turn} ${mx} ${my})" text-anchor="middle">${text}</text>`;
}

/** Across the line at 45 degrees. */
function tick([x, y]: Vec2, ux: number, uy: number): SVGTemplateResult {
  const [dx, dy] = [(ux + uy) * TICK * Math.SQRT1_2, (uy - ux) * TICK * Math.SQRT1_2];
  const [ex, ey] = [-uy * TICK, ux * TICK];
  return svg`<path d="M${x - dx} ${y - dy}L${x + dx} ${y + dy}" stroke-width="2"></path>
    <path d="M${x - ex} ${y - ey}L${x + ex} ${y + ey}"></path>`;
}

function head([x, y]: Vec2, ux: number, uy: number, long: number): SVGTemplateResult {
  const size = Math.min(HEAD, Math.max(4, long * 0.6));
  const [bx, by] = [x - ux * size, y - uy * size];
  const half = size * 0.27;
  return svg`<path d="M${x} ${y}L${bx - uy * half} ${by + ux * half}L${bx + uy * half} ${by - ux * half}Z" fill="var(--ink)"></path>`;
}
