/** How wide a ring round a duct stays clear of what stands before a face: find measures it, rules ask. */

/** Points of the line between which it runs straight: depth before the face, and the widest ring clear up to there. */
export type Clear = readonly (readonly [depth: number, width: number])[];

/** The widest clear ring of a depth; undefined where nothing stands before that depth. */
export function clearWidth(clear: Clear, depth: number): number | undefined {
  const [first] = clear;
  if (!first || depth <= first[0]) return undefined;
  const next = clear.findIndex(([at]) => at > depth);
  if (next < 0) return clear.at(-1)![1];
  const [[d0, w0], [d1, w1]] = [clear[next - 1]!, clear[next]!];
  return w0 + ((w1 - w0) * (depth - d0)) / (d1 - d0);
}
