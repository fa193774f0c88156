/** Raised with a sentence a person can read: why this product's geometry could not be used. */
export class UnreadableGeometry extends Error {}
