/** The typeface as a document carries it with itself. */
import { FONT_FAMILY } from './font-metrics.js';

export interface FontFace {
  readonly weight: 400 | 700;
  /** As CSS writes it. */
  readonly unicodeRange: string;
  readonly woff2: Uint8Array;
}

/** `@font-face` rules with the files inside; the family stands before any that the reader's machine has. */
export function fontFaces(faces: readonly FontFace[]): string {
  return faces
    .map(
      ({ weight, unicodeRange, woff2 }) =>
        `@font-face{font-family:"${FONT_FAMILY}";font-weight:${weight};unicode-range:${unicodeRange};src:url(data:font/woff2;base64,${base64(woff2)}) format("woff2")}`,
    )
    .join('\n');
}

/** Names of several words need no quotes in CSS, and then none are to be escaped in an attribute. */
export const FONT_STACK = `${FONT_FAMILY},DejaVu Sans,sans-serif`;

/** Measured widths hold for figures of one width and for pairs that are not drawn together. */
export const FONT_SETTINGS = 'font-variant-numeric:tabular-nums;font-kerning:none';

function base64(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}
