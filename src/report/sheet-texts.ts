/** What stands on every sheet for proof-readers, whatever it is written as. */
import { DEMONSTRATION } from './words.js';

export const SHEET_CAUTIONS = [
  'This sheet shows what a document of rules says, line by line; it is no evidence of any test and no approval.',
  'The test report itself decides. A value that differs from it by one figure makes every review that used it wrong.',
  'Tick a line only with the page of the report open. What the report does not say stays out of the document: unknown is never passed.',
  'The lines are those of the text that has the checksum above; a changed text needs a new sheet.',
];
export const SHEET_CAUTION_IN_BRIEF =
  'For proof-reading against the test documents; no evidence and no approval: the test report itself decides.';

export const CHECKED = 'Checked';
export const SIGNATURES = ['Proof-read by', 'Against (report, revision, pages)', 'Date', 'Signature'];

export const stampOf = (isDemonstration: boolean): string | null => (isDemonstration ? DEMONSTRATION : null);

/** A sheet with what its text is known again by. */
export interface SignedSheet<Sheet> {
  readonly sheet: Sheet;
  /** Of the text, hexadecimal. */
  readonly sha256: string;
}
