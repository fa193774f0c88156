/** mulberry32: the same numbers in every run of a seed. */
export interface Random {
  /** 0 to 1. */
  next(): number;
  below(n: number): number;
  pick<T>(list: readonly T[]): T;
}

export function randomOf(seed: number): Random {
  let state = Math.imul(seed, 0x9e3779b1) | 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (n: number): number => Math.floor(next() * n);
  return { next, below, pick: (list) => list[below(list.length)]! };
}
