/** The typeface of the papers, from its package: Atkinson Hyperlegible Next, SIL Open Font License 1.1. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { FontFace } from '../draw/paper/font-face.js';

const PACKAGE = '@fontsource/atkinson-hyperlegible-next';
/** As the package's own style sheets part it; `latin` goes last, since the last that has a character is taken. */
const PARTS = {
  'latin-ext':
    'U+0100-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1EFF,U+2020,U+20A0-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF',
  latin:
    'U+0000-00FF,U+0131,U+0152-0153,U+02C6,U+02DA,U+02DC,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FFFD',
} as const;

export function fontFile(weight: 400 | 700, part: keyof typeof PARTS): string {
  const name = `atkinson-hyperlegible-next-${part}-${weight}-normal.woff2`;
  return createRequire(import.meta.url).resolve(`${PACKAGE}/files/${name}`);
}

export async function loadFonts(): Promise<FontFace[]> {
  const parts = Object.keys(PARTS) as (keyof typeof PARTS)[];
  return Promise.all(
    parts.flatMap((part) =>
      ([400, 700] as const).map(async (weight) => ({
        weight,
        unicodeRange: PARTS[part],
        woff2: await readFile(fontFile(weight, part)),
      })),
    ),
  );
}
