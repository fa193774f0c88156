export {
  type Assumption,
  assumeChoices,
  type ChangedChoice,
  changedChoices,
  choiceAt,
  parseAssumption,
} from './assume.js';
export { AssumptionError } from './assumption-error.js';
export type { Strategy } from './brief-says.js';
export { newBrief } from './brief-template.js';
export { type ExampleResult, runExamples } from './examples.js';
export type { BareFinding } from './finding.js';
export {
  type BriefJudgement,
  type Judged,
  type JudgeOptions,
  judge,
  judgeBriefly,
  judgeChecks,
  judgeOutcomes,
  judgeWithResults,
} from './judge.js';
export { KeptCases } from './kept-cases.js';
export { isProjectBrief, loadRules, type RuleDocumentText, ruleJsonSchemas } from './load.js';
export { loadBrief } from './load-brief.js';
export { requiredAt } from './minutes.js';
export { notesOn, type RuleNote } from './notes.js';
export type {
  BriefChoices,
  BriefComment,
  BriefConcession,
  BriefFacts,
  ProjectBrief,
  SystemChoice,
} from './project-brief.js';
export { RuleDocumentError } from './rule-document-error.js';
export type { RuleSet } from './rule-set.js';
export { parseBySchema } from './schema-issues.js';
export { largestSeparation } from './separation.js';
export { LINE_HEADS, type Sheet, type SheetBlock, type SheetCell, type SheetTable, sheetOf } from './sheet.js';
export { settledBy } from './strategy-table.js';
export { constructionRows, serviceRows } from './table-rows.js';
export type { TestedDamper } from './tested-damper.js';
export type { Detail } from './tested-detail.js';
export type { Fixing, TestedSystem } from './tested-system.js';
export type { WholeRuns } from './whole-runs.js';
export { readYaml } from './yaml-source.js';
