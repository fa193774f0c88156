/** How far what is built and measured may be off, as a check asks its margin to hold. */
import type { Tolerance } from '../model.js';
import { SITE } from './check-set.js';
import type { FactObject } from './fact-schema.js';
import { rounded } from './limit.js';
import { numberOf } from './read-fact.js';

/**
 * @param asked `site`, and facts that say how exactly something is measured
 * @param site of the project, mm
 * @returns the facts that are missing, where any is
 */
export function toleranceOf(
  asked: readonly string[],
  facts: FactObject,
  site: number,
): Tolerance | { readonly missing: readonly string[] } {
  const measuring = asked.filter((one) => one !== SITE).map((path) => ({ path, value: numberOf(facts, path) }));
  const missing = measuring.filter(({ value }) => value === undefined).map(({ path }) => path);
  if (missing.length > 0) return { missing };
  return {
    site: asked.includes(SITE) ? site : 0,
    measuring: rounded(
      measuring.reduce((sum, { value = 0 }) => sum + value, 0),
      undefined,
    ),
  };
}
