/** A drawing as one SVG document: true to size on paper, with a title for those who can't see it. */
import { FONT_SETTINGS, FONT_STACK } from './font-face.js';
import { SHEET } from './palette.js';
import { element, escapeText } from './svg.js';

export interface DrawingSheet {
  /** mm on paper. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** CSS with the typeface, where the drawing has to carry its own; see `fontFaces`. */
  readonly style?: string | undefined;
}

/** @param content markup, the lowest first */
export function drawingOf({ width, height, title, style }: DrawingSheet, ...content: readonly string[]): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${height}`,
      width: `${width}mm`,
      height: `${height}mm`,
      role: 'img',
      'font-family': FONT_STACK,
      style: FONT_SETTINGS,
    },
    element('title', {}, escapeText(title)),
    ...(style === undefined ? [] : [element('style', {}, style)]),
    element('rect', { width, height, fill: SHEET }),
    ...content,
  );
}
