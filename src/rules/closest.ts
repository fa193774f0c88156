/** The candidate that `word` was most likely meant to be; undefined when none is near. */
export function closest(word: string, candidates: readonly string[]): string | undefined {
  // The work grows with the word's length, and no name that rules know is half as long.
  if (word.length > 80) return undefined;
  let best: string | undefined;
  // More than a third wrong is no slip of the finger any more.
  let bestDistance = Math.max(2, Math.floor(word.length / 3)) + 1;
  for (const candidate of candidates) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

export function perhaps(word: string, candidates: readonly string[]): string {
  const meant = closest(word, candidates);
  return meant === undefined ? '' : `; perhaps you meant "${meant}"`;
}

function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}
