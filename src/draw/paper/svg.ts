/** SVG as text: elements with escaped attributes, numbers to a hundredth. */
import type { Polygon, Vec2 } from '../../model.js';
import { printable } from '../../words/text.js';

export type Attributes = { readonly [name: string]: string | number | undefined };

/** Children are markup already; {@link escapeText} makes text into markup. */
export function element(name: string, attributes: Attributes = {}, ...children: readonly string[]): string {
  const list = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? coordinate(value) : escapeText(String(value))}"`)
    .join('');
  return children.length === 0 ? `<${name}${list}/>` : `<${name}${list}>${children.join('')}</${name}>`;
}

const ESCAPED: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** For text and attribute values of HTML and XML; what turns or hides text becomes a blank, what is no character U+FFFD. */
export function escapeText(text: string): string {
  return printable(text)
    .replace(/\p{Surrogate}|\p{Noncharacter_Code_Point}/gu, '\ufffd')
    .replace(/[&<>"']/g, (c) => ESCAPED[c]!);
}

export const coordinate = (value: number): string => String(Number(value.toFixed(2)) + 0);

/** Path of closed outlines. Outlines of many points (arcs) lose those that no printer could show. */
export function closedPath(outlines: readonly Polygon[]): string {
  return outlines.map((outline) => `M${visible(outline).map(pair).join('L')}Z`).join('');
}

export const line = (from: Vec2, to: Vec2): string => `M${pair(from)}L${pair(to)}`;

const pair = ([x, y]: Vec2): string => `${coordinate(x)} ${coordinate(y)}`;

/** Points of an outline that is an arc more than it is corners, and how near they may come (mm on paper). */
const ARC_POINTS = 16;
const LEAST_STEP = 0.4;

function visible(outline: Polygon): Polygon {
  if (outline.length <= ARC_POINTS) return outline;
  const kept: Vec2[] = [];
  for (const point of outline) {
    const last = kept.at(-1);
    if (!last || Math.hypot(point[0] - last[0], point[1] - last[1]) >= LEAST_STEP) kept.push(point);
  }
  return kept.length < 3 ? outline : kept;
}
