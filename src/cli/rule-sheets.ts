/** `ratedrun rules --sheet`: the documents as sheets that a specialist proof-reads. */
import { basename, dirname } from 'node:path';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { loadFonts } from '../platform/fonts.js';
import { writeSheetHtml } from '../report/sheet-html.js';
import { writeSheetMarkdown } from '../report/sheet-markdown.js';
import { sheetOf } from '../rules/index.js';
import type { Documents } from './documents.js';
import { writeOutputs } from './io.js';
import type { Streams } from './streams.js';

export interface SheetOptions {
  readonly sheet: 'md' | 'html';
  /** A file; left out: stdout. */
  readonly out?: string;
}

export async function writeSheets(
  { texts, rules, shipped }: Documents,
  { sheet: form, out }: SheetOptions,
  io: Streams,
): Promise<void> {
  const published = [...rules.published, ...shipped.rules.published];
  const sheets = texts.map((document) => ({
    sheet: sheetOf(
      document,
      published,
      rules.checks.filter(({ file }) => file === document.file),
    ),
    sha256: bytesToHex(sha256(utf8ToBytes(document.text))),
  }));
  const bytes = form === 'md' ? utf8ToBytes(writeSheetMarkdown(sheets)) : writeSheetHtml(sheets, await loadFonts());
  if (out === undefined) io.out.write(bytes);
  else await writeOutputs(dirname(out), { [basename(out)]: bytes });
}
