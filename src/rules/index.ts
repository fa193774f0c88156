export { type ExampleResult, runExamples } from './examples.js';
export { type JudgeOptions, judge } from './judge.js';
export { loadRules, type RuleDocumentText, ruleJsonSchemas } from './load.js';
export { RuleDocumentError } from './rule-document-error.js';
export type { RuleSet } from './rule-set.js';
export { largestSeparation } from './separation.js';
