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
    super(message);
  }
}
