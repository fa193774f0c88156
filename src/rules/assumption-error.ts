/** What can't be assumed, in one line. By itself: who only has to know it need not load what assumes. */
export class AssumptionError extends Error {
  override readonly name = 'AssumptionError';
}
