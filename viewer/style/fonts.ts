/** The typeface of the papers on the page: Atkinson Hyperlegible Next, SIL Open Font License 1.1, from our own files. */

import latin400 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff2?url';
import latin700 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff2?url';
import ext400 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff2?url';
import ext700 from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff2?url';
import { FONT_FAMILY } from '../../src/draw/paper/font-metrics.js';
import { FONT_PARTS } from '../../src/draw/paper/font-parts.js';

const FILES = [
  { url: ext400, weight: '400', unicodeRange: FONT_PARTS['latin-ext'] },
  { url: ext700, weight: '700', unicodeRange: FONT_PARTS['latin-ext'] },
  { url: latin400, weight: '400', unicodeRange: FONT_PARTS.latin },
  { url: latin700, weight: '700', unicodeRange: FONT_PARTS.latin },
];

/** Once for the document; style sheets of shadow roots can't bring a typeface. */
export function addFonts(): void {
  if ([...document.fonts].some(({ family }) => family.replaceAll('"', '') === FONT_FAMILY)) return;
  for (const { url, ...descriptors } of FILES) {
    const source = `url(${new URL(url, import.meta.url).href})`;
    document.fonts.add(new FontFace(FONT_FAMILY, source, { ...descriptors, display: 'swap' }));
  }
}
