/** The typeface of the papers, from its package: Atkinson Hyperlegible Next, SIL Open Font License 1.1. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { FontFace } from '../draw/paper/font-face.js';
import { FONT_PARTS } from '../draw/paper/font-parts.js';

const PACKAGE = '@fontsource/atkinson-hyperlegible-next';

export function fontFile(weight: 400 | 700, part: keyof typeof FONT_PARTS): string {
  const name = `atkinson-hyperlegible-next-${part}-${weight}-normal.woff2`;
  return createRequire(import.meta.url).resolve(`${PACKAGE}/files/${name}`);
}

export async function loadFonts(): Promise<FontFace[]> {
  const parts = Object.keys(FONT_PARTS) as (keyof typeof FONT_PARTS)[];
  return Promise.all(
    parts.flatMap((part) =>
      ([400, 700] as const).map(async (weight) => ({
        weight,
        unicodeRange: FONT_PARTS[part],
        woff2: await readFile(fontFile(weight, part)),
      })),
    ),
  );
}
