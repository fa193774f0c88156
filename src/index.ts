/**
 * The public API: four steps from IFC files to a report. Each takes plain data and returns plain data, so a host
 * program can start from its own `Federation` and leave out the first.
 *
 * @example
 * const federation = await readFederation([{ name: 'services.ifc', bytes }]);
 * const crossings = findPenetrations(federation);
 * const judgement = judge(crossings, loadRules([{ file: 'my-rules.yaml', text }]));
 * const report = buildReport({ models: federation.models, crossings, judgement, createdAt, toolVersion: '1.0.0' });
 */
export { type FindOptions, findPenetrations } from './find/find-penetrations.js';
export * from './model.js';
export { InputError } from './read/container.js';
export type { FileReader, ModelInput } from './read/file-reader.js';
export { type ReadOptions, readFederation } from './read/read-federation.js';
export { buildReport, type ReportInput } from './report/build-report.js';
export { parseReport, type Report, reportJsonSchema } from './report/schema.js';
export { type JudgeOptions, judge, loadRules, RuleDocumentError, type RuleSet } from './rules/index.js';
