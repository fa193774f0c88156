/** QR codes as jsQR, a decoder by others, reads them from the modules that a page draws. */
import readQr from 'jsqr';
import type { DefaultTreeAdapterTypes as Tree } from 'parse5';
import { expect } from 'vitest';
import { attribute, named } from './read-html.js';

// A CommonJS module that names its only function `default`.
const decode = readQr as unknown as { readonly default: typeof readQr.default };

/** Pixels of one module. */
const PIXELS = 4;

/** @param svg of one code. @returns its text; null where nobody can read it */
export function readCode(svg: Tree.Element): string | null {
  const [, , size] = attribute(svg, 'viewBox')!.split(' ').map(Number);
  const width = size! * PIXELS;
  const pixels = new Uint8ClampedArray(width * width * 4).fill(255);
  const drawn = attribute(named(svg, 'path')[0]!, 'd')!;
  const runs = [...drawn.matchAll(/M(\d+) (\d+)h(\d+)v1h-(\d+)z/g)].map((run) => run.slice(1).map(Number));
  expect(runs.map(([x, y, length]) => `M${x} ${y}h${length}v1h-${length}z`).join('')).toBe(drawn);
  for (const [x, y, length] of runs as [number, number, number][])
    for (let row = y * PIXELS; row < (y + 1) * PIXELS; row++)
      for (let column = x * PIXELS; column < (x + length) * PIXELS; column++)
        pixels.fill(0, (row * width + column) * 4, (row * width + column) * 4 + 3);
  return decode.default(pixels, width, width)?.data ?? null;
}
