/** What a page of the bench says of a building that it drew. */
export interface FrameTimes {
  readonly elements: number;
  /** ms to make the batches, in slices. */
  readonly built: number;
  /** Medians, ms. */
  readonly front: number;
  readonly free: number;
  readonly whole: number;
  readonly drawCalls: number;
}
