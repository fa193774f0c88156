/** Labels in a line, each as near to what it names as the others let it. */

/** @param wished middles, ascending; @param size of each; @returns middles, at least `size` apart, within 0 and `length` */
export function spread(wished: readonly number[], size: number, length: number): number[] {
  const placed: number[] = [];
  for (const middle of wished) placed.push(Math.max(middle, (placed.at(-1) ?? -size / 2) + size));
  let limit = length - size / 2;
  for (let i = placed.length - 1; i >= 0; i--) {
    placed[i] = Math.min(placed[i]!, limit);
    limit = placed[i]! - size;
  }
  return placed;
}
