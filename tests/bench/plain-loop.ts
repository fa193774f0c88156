/**
 * The same comparisons of bare numbers in typed arrays, as if nobody had to read rules or facts: what comparing alone
 * costs. It counts what is missed and unknown and takes the best, as the program does; the bench holds both to that.
 */
import { isBuilt, type ScopeLine } from '../../src/rules/scope-lines.js';

export interface Plain {
  /** One for each comparison; NaN: not known. */
  readonly values: Float64Array;
  readonly least: Float64Array;
  readonly most: Float64Array;
  /** 1: its margin counts. */
  readonly counts: Uint8Array;
  /** For each candidate where its comparisons begin, and at last where they end. */
  readonly candidates: Int32Array;
  /** For each place where its candidates begin, and at last where they end. */
  readonly places: Int32Array;
}

export interface Best {
  readonly misses: number;
  readonly unknown: number;
  /** The least, each as a part of its limit. */
  readonly margin: number;
}

/** @param all the lines of each candidate of each place, one place after the other: together they would fill the memory */
export function plainOf(all: Iterable<readonly (readonly ScopeLine[])[]>): Plain {
  const [values, least, most, counts]: number[][] = [[], [], [], []];
  const [candidates, places] = [[0], [0]];
  for (const own of all) {
    for (const lines of own) {
      for (const line of lines) {
        const { measured, limit, met, relative } = line;
        // Words are compared as numbers too: 0 is what is allowed.
        const isNumber = relative !== undefined && typeof measured === 'number';
        values!.push(met === undefined ? Number.NaN : isNumber ? measured : met ? 0 : 1);
        least!.push(isNumber ? (limit?.atLeast ?? Number.NEGATIVE_INFINITY) : 0);
        most!.push(isNumber ? (limit?.atMost ?? Number.POSITIVE_INFINITY) : 0);
        counts!.push(relative !== undefined && isBuilt(line) ? 1 : 0);
      }
      candidates.push(values!.length);
    }
    places.push(candidates.length - 1);
  }
  return {
    values: Float64Array.from(values!),
    least: Float64Array.from(least!),
    most: Float64Array.from(most!),
    counts: Uint8Array.from(counts!),
    candidates: Int32Array.from(candidates),
    places: Int32Array.from(places),
  };
}

export function bestPlainly({ values, least, most, counts, candidates, places }: Plain): Best[] {
  const found: Best[] = [];
  for (let place = 0; place < places.length - 1; place++) {
    let best: Best = { misses: Infinity, unknown: Infinity, margin: -Infinity };
    for (let one = places[place]!; one < places[place + 1]!; one++) {
      let [misses, unknown, margin] = [0, 0, Infinity];
      for (let i = candidates[one]!; i < candidates[one + 1]!; i++) {
        const [value, low, high] = [values[i]!, least[i]!, most[i]!];
        if (Number.isNaN(value)) unknown++;
        else if (value < low || value > high) misses++;
        if (counts[i] === 0) continue;
        const [above, below] = [value - low, high - value];
        const relative = above < below ? above / Math.max(1, low) : below / Math.max(1, high);
        if (relative < margin) margin = relative;
      }
      const isBetter =
        misses < best.misses ||
        (misses === best.misses && (unknown < best.unknown || (unknown === best.unknown && margin > best.margin)));
      if (isBetter) best = { misses, unknown, margin };
    }
    found.push(best);
  }
  return found;
}
