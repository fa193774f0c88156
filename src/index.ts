/**
 * The public API: six steps from IFC files to a report. Each takes plain data and returns plain data, so a host program can
 * start from its own `Federation` and leave out the first, and leave out remedies, which take about as long as finding, or
 * quantities.
 *
 * @example
 * const rules = loadRules([{ file: 'my-rules.yaml', text }]);
 * const brief = loadBrief({ file: 'my-project.yaml', text: briefText }, rules);
 * const constructions = constructionRows(rules);
 * const federation = await readFederation([{ name: 'services.ifc', bytes }], { facts: brief.facts, constructions });
 * const crossings = findPenetrations(federation, { facts: brief.facts, separation: largestSeparation(rules) });
 * const judge = { brief, models: federation.models };
 * const judged = judgeWithResults(crossings, rules, judge);
 * const { judgement, results } = withRemedies(judged, { federation, crossings, rules, find: { facts: brief.facts, separation: largestSeparation(rules) }, judge });
 * const takeoff = await quantify({ crossings, judgement, systems: rules.systems, choices: brief.choices, storeys: storeysIn(federation) });
 * const report = buildReport({ models: federation.models, crossings, judgement, results, takeoff, choices: brief.choices, serviceRows: serviceRows(rules), createdAt, toolVersion: '1.0.0' });
 *
 * @example
 * // The same in one call, and then what another choice would change, without the models:
 * const made = await review({ models, reader, rules, constructions, brief, createdAt, toolVersion: '1.0.0' });
 * const again = new FactsAgain(factsOf({ ...made, rules: texts, shipped: [], brief }));
 * const { assumed } = await again.under([{ name: 'siteTolerance', value: 5 }]);
 */
export { carryKeys } from './compare/carry-keys.js';
export { compareReports } from './compare/compare-reports.js';
export { type Comparison, comparisonJsonSchema } from './compare/schema.js';
export { type CuttingPlanInput, drawCuttingPlan } from './draw/paper/cutting-plan.js';
export { drawElevation, type ElevationInput } from './draw/paper/elevation.js';
export { type FontFace, fontFaces } from './draw/paper/font-face.js';
export { drawSection, type SectionInput } from './draw/paper/section.js';
export { drawStoreyPlan, type StoreyPlanOptions } from './draw/paper/storey-plan.js';
export { type BuildingWide, type FindOptions, findInBuilding, findPenetrations } from './find/find-penetrations.js';
export * from './model.js';
export { type QuantifyInput, quantify } from './quantify/quantify.js';
export { storeysIn } from './quantify/storeys.js';
export * from './quantify/takeoff.js';
export { InputError } from './read/container.js';
export type { FileReader, ModelInput } from './read/file-reader.js';
export { type ReadOptions, readFederation } from './read/read-federation.js';
export type { Guidance } from './read/source.js';
export { type Remedies, type Remedy, type Reviewed, remediesFor, withRemedies } from './remedy/remedies.js';
export { type BcfFile, readBcf } from './report/bcf/archive.js';
export { topicsIn } from './report/bcf/finding-topics.js';
export { BcfError } from './report/bcf/topic.js';
export { type BcfOptions, writeBcf } from './report/bcf/write-bcf.js';
export { buildReport, type ReportInput } from './report/build-report.js';
export { writeInstallCards } from './report/cards/write-install-cards.js';
export { newConcession } from './report/concession-words.js';
export { type HtmlOptions, writeHtml } from './report/html.js';
export { type InspectionPlanOptions, writeInspectionPlan } from './report/inspection/write-inspection-plan.js';
export { type OpeningRequest, type OpeningRequests, openingRequests } from './report/opening-requests.js';
export { type Assumed, type ListedConcession, parseReport, type Report, reportJsonSchema } from './report/schema.js';
export { type TrialInput, tryChoices } from './report/try-choices.js';
export { writeGeometry } from './report/write-geometry.js';
export { type IfcSchema, writeOpeningRequests } from './report/write-opening-requests.js';
export { type BriefEntries, type BriefTextInput, writeBriefText } from './review/brief-text.js';
export { briefOf, constructionsOf, type ReadBrief, rulesOf } from './review/documents.js';
export { FactsError, factsOf, type ReviewFacts, readFacts, writeFacts } from './review/facts-file.js';
export type { FoundStore, Kept, ReviewOptions } from './review/found.js';
export { FactsAgain, withWordsOf } from './review/judge-again.js';
export { type Review, type ReviewInput, review } from './review/review.js';
export {
  type Assumption,
  AssumptionError,
  assumeChoices,
  constructionRows,
  type ExampleResult,
  type JudgeOptions,
  judge,
  judgeWithResults,
  largestSeparation,
  loadBrief,
  loadRules,
  newBrief,
  type ProjectBrief,
  parseAssumption,
  RuleDocumentError,
  type RuleDocumentText,
  type RuleSet,
  ruleJsonSchemas,
  runExamples,
  serviceRows,
} from './rules/index.js';
export * from './scene/geometry-extras.js';
export { type Scene, type SceneElement, sceneOf } from './scene/scene.js';
export type { StoreyPlan } from './scene/storey-plan.js';
export { storeyPlans } from './scene/storey-plans.js';
export { demandOf, type RunDemand, type ServiceRow, type SystemOfDuct } from './strategy/index.js';
