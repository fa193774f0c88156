/** Raised with a sentence a person can read: why this product's geometry could not be used. */
export class UnreadableGeometry extends Error {
  constructor(
    message: string,
    /** Of the problem that is noted. */
    readonly code: 'unreadable-geometry' | 'no-thickness' = 'unreadable-geometry',
  ) {
    super(message);
  }
}
