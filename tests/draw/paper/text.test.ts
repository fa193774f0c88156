/** The widths that drawings are laid out with are those of the typeface, as fontkit reads them from its file. */
import { describe, expect, it } from 'vitest';
import { ASCENT, BOLD, CAP_HEIGHT, DESCENT, REGULAR } from '../../../src/draw/paper/font-metrics.js';
import { fitted, fontSize, LETTERING, textWidth, wrapped } from '../../../src/draw/paper/text.js';
import { loadFonts } from '../../../src/platform/fonts.js';
import { FONTS, measure } from './svg-texts.js';

const STYLE = { lettering: 'normal' } as const;

describe.each([
  ['regular', REGULAR, false],
  ['bold', BOLD, true],
] as const)('the %s widths', (weight, table, bold) => {
  it('are those of the typeface, rounded up to a thousandth', () => {
    let compared = 0;
    for (const { from, widths } of table)
      for (const [i, width] of widths.entries()) {
        const character = String.fromCodePoint(from + i);
        const drawn = measure(character, FONTS[weight]);
        const ours = textWidth(character, { ...STYLE, bold }) / fontSize(STYLE);
        expect(ours, `U+${(from + i).toString(16)}`).toBeGreaterThanOrEqual(drawn - 1e-9);
        if (width > 0) expect(ours - drawn).toBeLessThan(0.0011);
        compared++;
      }
    expect(compared).toBeGreaterThan(200);
  });
});

it('lets figures be of one width, and 1, l, I, 0, O of different shapes', () => {
  for (const font of Object.values(FONTS)) {
    expect(new Set([...'0123456789'].map((figure) => measure(figure, font))).size).toBe(1);
    const shapes = [...'1lI0O'].map((c) => font.glyphForCodePoint(c.codePointAt(0)!).path.toSVG());
    expect(new Set(shapes).size).toBe(5);
  }
});

it('makes capitals as high as ISO 3098-1 says', () => {
  const { capHeight, unitsPerEm, ascent, descent } = FONTS.regular;
  expect([ASCENT, DESCENT, CAP_HEIGHT]).toEqual([ascent / unitsPerEm, -descent / unitsPerEm, capHeight / unitsPerEm]);
  // ISO 3098-1, nominal sizes: 1.8, 2.5, 3.5, 5 mm (from memory).
  expect(Object.values(LETTERING)).toEqual([1.8, 2.5, 3.5, 5]);
  expect((fontSize(STYLE) * capHeight) / unitsPerEm).toBeCloseTo(2.5, 9);
});

it('carries two weights, each in two parts', async () => {
  const faces = await loadFonts();
  expect(faces.map((face) => face.weight)).toEqual([400, 700, 400, 700]);
  // The signature of the WOFF2 file format (W3C).
  for (const { woff2 } of faces) expect(new TextDecoder().decode(woff2.slice(0, 4))).toBe('wOF2');
});

describe('fitting', () => {
  it.each([
    ['nothing', ''],
    ['a name', 'W-12'],
    ['many words', 'a '.repeat(300)],
    ['wide ligatures', 'ﷺ'.repeat(50)],
    ['another script', '耐火壁'.repeat(30)],
    ['one long word', 'x'.repeat(10_000)],
  ])('of %s keeps to the width', (_, text) => {
    const line = fitted(text, 40, STYLE);
    expect(textWidth(line, STYLE)).toBeLessThanOrEqual(40);
    const lines = wrapped(text, 40, 3, STYLE);
    expect(lines.length).toBeLessThanOrEqual(3);
    for (const each of lines) expect(textWidth(each, STYLE)).toBeLessThanOrEqual(40);
  });
  it('says where something was left out, and only there', () => {
    expect(fitted('Corridor wall', 80, STYLE)).toBe('Corridor wall');
    expect(fitted('Corridor wall', 12, STYLE)).toMatch(/^Cor.*…$/);
    expect(wrapped('one two three', 200, 2, STYLE)).toEqual(['one two three']);
    expect(wrapped('x'.repeat(600), 40, 50, STYLE).at(-1)).toMatch(/…$/);
    expect(wrapped('one two three four five six', 12, 2, STYLE).at(-1)).toMatch(/…$/);
  });
});
