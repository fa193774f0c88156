import { perhaps } from './closest.js';
import { type Each, factPaths } from './fact-schema.js';

/** Placeholders besides the facts. */
export const SPECIAL = ['measured', 'limit', 'atLeast', 'atMost', 'by', 'missing', 'waiting'] as const;
export type Special = (typeof SPECIAL)[number];

const PLACEHOLDER = /\{([^{}]*)\}/g;

/** The first placeholder that names nothing, with its offset; null when all is well. */
export function templateProblem(template: string, each: Each): { offset: number; message: string } | null {
  const known = [...SPECIAL, ...factPaths(each)];
  for (const match of template.matchAll(PLACEHOLDER)) {
    const name = match[1]!;
    if (known.includes(name)) continue;
    return {
      offset: match.index,
      message: `there is no placeholder {${name}} for each: ${each}${perhaps(name, known)}`,
    };
  }
  const stray = template.replaceAll(PLACEHOLDER, (match) => ' '.repeat(match.length)).search(/[{}]/);
  return stray < 0 ? null : { offset: stray, message: 'a curly bracket stands alone; placeholders are {like.this}' };
}

export const fillTemplate = (template: string, wordsFor: (name: string) => string): string =>
  template.replaceAll(PLACEHOLDER, (_, name: string) => wordsFor(name));
