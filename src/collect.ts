/** What JavaScript's own collections and texts lack on the Node versions that we run on. */

/** Adds a value to the list that the index keeps for the key. */
export function fileUnder<K, V>(index: Map<K, V[]>, key: K, value: V): void {
  const list = index.get(key);
  if (list) list.push(value);
  else index.set(key, [value]);
}

/** By code units, so that the order is the same on every machine. */
export const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Without subtraction: infinity minus infinity is no number. */
export const compareNumbers = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);

/** Whether a name has one of a brief's words in it, whatever their case. */
export const hasWord = (name: string, words: readonly string[]): boolean =>
  words.some((word) => name.toLowerCase().includes(word.toLowerCase()));

/** Computed when it is first asked for, and then kept. */
export function once<T>(compute: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => {
    kept ??= { value: compute() };
    return kept.value;
  };
}

/** What lets go of what one of the following keeps; they are made once, when their modules are loaded. */
const letting: (() => void)[] = [];

/**
 * Lets go of all that `onceForEach` and `onceForRecent` keep. It is worked out again where it is asked for: a building that was
 * gone through holds more of it than of itself, and hardly any of it is asked for again.
 */
export function letGoOfKept(): void {
  for (const letGo of letting) letGo();
}

/** Worked out once for each object, and kept as long as the object is in use. */
export function onceForEach<K extends object, T extends object | null>(compute: (key: K) => T): (key: K) => T {
  let kept = new WeakMap<K, T>();
  letting.push(() => {
    kept = new WeakMap();
  });
  return (key) => {
    const known = kept.get(key);
    if (known !== undefined) return known;
    const value = compute(key);
    kept.set(key, value);
    return value;
  };
}

/** The same for the keys that were asked for lately, between `most` and twice as many: so it is bounded in any building. */
export function onceForRecent<K extends object, T extends object>(most: number, compute: (key: K) => T): (key: K) => T {
  let [recent, before] = [new WeakMap<K, T>(), new WeakMap<K, T>()];
  let count = 0;
  letting.push(() => {
    [recent, before, count] = [new WeakMap(), new WeakMap(), 0];
  });
  return (key) => {
    const known = recent.get(key);
    if (known) return known;
    const value = before.get(key) ?? compute(key);
    if (count === most) [before, recent, count] = [recent, new WeakMap(), 0];
    recent.set(key, value);
    count++;
    return value;
  };
}
