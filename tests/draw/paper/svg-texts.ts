/** Texts of a drawing with their boxes, measured by a font library from the typeface itself, not by our table. */
import { readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import { fontFile } from '../../../src/platform/fonts.js';

export interface DrawnText {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const open = (weight: 400 | 700): Font => create(readFileSync(fontFile(weight, 'latin'))) as Font;
export const FONTS = { regular: open(400), bold: open(700) };

/** In shares of the font size; figures of one width, no kerning. A character that the typeface has not counts as a square. */
export function measure(text: string, font: Font): number {
  let width = 0;
  for (const character of text) {
    const code = character.codePointAt(0)!;
    width += font.hasGlyphForCodePoint(code) ? font.layout(character, ['tnum']).advanceWidth / font.unitsPerEm : 1;
  }
  return width;
}

const UNESCAPED: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};
export const unescapeText = (text: string): string =>
  text.replace(/&(amp|lt|gt|quot|#39);/g, (entity) => UNESCAPED[entity]!);

export function textsOf(svg: string): DrawnText[] {
  return [...svg.matchAll(/<text ([^>]*)>([^<]*)<\/text>/g)].map(([, attributes, content]) => {
    const of = (name: string): string | undefined => new RegExp(`(?:^| )${name}="([^"]*)"`).exec(attributes!)?.[1];
    const size = Number(of('font-size'));
    const font = of('font-weight') === '700' ? FONTS.bold : FONTS.regular;
    const text = unescapeText(content!);
    const ascent = (size * font.ascent) / font.unitsPerEm;
    const descent = (size * -font.descent) / font.unitsPerEm;
    return {
      text,
      x: Number(of('x')),
      y: Number(of('y')) - ascent,
      width: size * measure(text, font),
      height: ascent + descent,
    };
  });
}

/** Coordinates are written to a hundredth of a millimetre. */
const WRITTEN = 0.02;

/** Pairs of texts whose boxes overlap, and texts that leave the sheet. */
export function faultsOf(svg: string, sheet: { readonly width: number; readonly height: number }): string[] {
  const texts = textsOf(svg);
  const faults = texts
    .filter(
      (t) => t.x < 0 || t.y < 0 || t.x + t.width > sheet.width + WRITTEN || t.y + t.height > sheet.height + WRITTEN,
    )
    .map((t) => `"${t.text}" leaves the sheet`);
  for (const [i, a] of texts.entries())
    for (const b of texts.slice(i + 1)) {
      const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
      const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
      if (across > WRITTEN && down > WRITTEN) faults.push(`"${a.text}" overlaps "${b.text}"`);
    }
  return faults;
}
