/** A rule document that can't be used: where, what is wrong, and what would be right. */
export class RuleDocumentError extends Error {
  override readonly name = 'RuleDocumentError';
  constructor(
    readonly file: string,
    /** From 1. */
    readonly line: number,
    /** From 1. */
    readonly column: number,
    message: string,
  ) {
    super(oneLine(message));
  }
}

/** Messages quote the document, which may hold line breaks, control characters and very long words. */
const MAX_LENGTH = 500;

function oneLine(text: string): string {
  const line = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\s]+/gu, ' ').trim();
  return line.length > MAX_LENGTH ? `${line.slice(0, MAX_LENGTH)} …` : line;
}
