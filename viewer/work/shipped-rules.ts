/** The rule documents that come with the program, as the command line has them. */
import { once } from '../../src/collect.js';
import { loadRules, type RuleDocumentText, type RuleSet } from '../../src/rules/index.js';

const texts = import.meta.glob<string>('../../rules/*.yaml', { query: '?raw', import: 'default', eager: true });

/** By name, as the command line reads them. */
export const SHIPPED_RULES: readonly RuleDocumentText[] = Object.entries(texts)
  .map(([path, text]) => ({ file: path.slice(path.lastIndexOf('/') + 1), text }))
  .sort((a, b) => (a.file < b.file ? -1 : 1));

export const shippedRules: () => RuleSet = once(() => loadRules(SHIPPED_RULES));
