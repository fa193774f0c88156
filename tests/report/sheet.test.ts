import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { loadFonts } from '../../src/platform/fonts.js';
import { writeSheetHtml } from '../../src/report/sheet-html.js';
import { writeSheetMarkdown } from '../../src/report/sheet-markdown.js';
import { SHEET_CAUTIONS } from '../../src/report/sheet-texts.js';
import { sheetOf } from '../../src/rules/index.js';
import { guideExample } from '../rules/guide.js';

const example = guideExample();
const signed = (text: string) => [{ sheet: sheetOf({ ...example, text }, [], []), sha256: 'c0ffee' }];
const html = async (text: string) => new TextDecoder().decode(writeSheetHtml(signed(text), await loadFonts()));
const rowsIn = (text: string) =>
  signed(text)[0]!.sheet.blocks.reduce((sum, block) => sum + ('rows' in block ? block.rows.length : 0), 0);

/** Names of models and products are hostile until proven otherwise. */
const HOSTILE = example.text.replace('name: Example blanket', 'name: "a | b <script>x()</script> *c* &lt; R&D"');

describe('sheets for proof-readers', () => {
  it('HTML: a box to tick for every line, cautions, stamp, checksum, and nothing fetched', async () => {
    const page = await html(example.text);
    const faults: string[] = [];
    parse(page, { onParseError: ({ code }) => faults.push(code) });
    expect(faults).toEqual([]);
    expect(page.match(/class="tick"/g)?.length).toBe(rowsIn(example.text));
    for (const caution of SHEET_CAUTIONS) expect(page).toContain(caution);
    expect(page).toContain('DEMONSTRATION DATA');
    expect(page).toContain('c0ffee');
    expect(page).toContain('Signature');
    expect(page).not.toMatch(/<(script|link|img)|https?:/);
  });

  it('Markdown: tables whose rows have as many cells as their heads', () => {
    const text = writeSheetMarkdown(signed(HOSTILE));
    const widths = text
      .split('\n\n')
      .filter((block) => block.startsWith('|'))
      .map((block) => new Set(block.split('\n').map((row) => row.replaceAll('\\|', '').split('|').length)));
    expect(widths.length).toBeGreaterThan(10);
    expect(widths.every((set) => set.size === 1)).toBe(true);
    expect(text.match(/☐/g)?.length).toBe(rowsIn(HOSTILE));
    for (const caution of SHEET_CAUTIONS) expect(text).toContain(caution);
    expect(text).toContain('DEMONSTRATION DATA');
  });

  it('names are text, never markup', async () => {
    expect(await html(HOSTILE)).not.toContain('<script>');
    expect(writeSheetMarkdown(signed(HOSTILE))).toContain('a \\| b \\<script\\>x()\\</script\\> \\*c\\* \\&lt; R&D');
  });

  it('only what is invented is stamped', async () => {
    const real = example.text.replace('status: demonstration', 'status: unverified');
    expect(writeSheetMarkdown(signed(real))).not.toContain('DEMONSTRATION');
    expect(await html(real)).not.toContain('DEMONSTRATION');
  });
});
