import * as z from 'zod';
import type { RuleInfo } from '../model.js';
import { CheckSet } from './check-set.js';
import { requireSense } from './check-set-sense.js';
import { perhaps } from './closest.js';
import { compileCheck } from './compile-check.js';
import { ConstructionTableSchema, requireTableSense } from './construction-table.js';
import { ProjectBriefSchema } from './project-brief.js';
import type { CompiledCheck, LoadedTable, RuleSet } from './rule-set.js';
import { parseBySchema } from './schema-issues.js';
import { type TestedDamper, TestedDamperSchema } from './tested-damper.js';
import { requireDamperSense } from './tested-damper-sense.js';
import type { TestedSystem } from './tested-system.js';
import { TestedSystemSchema } from './tested-system.js';
import { requireSystemSense } from './tested-system-sense.js';
import { readYaml, type YamlSource } from './yaml-source.js';

export interface RuleDocumentText {
  readonly file: string;
  readonly text: string;
}

interface Loaded {
  readonly info: RuleInfo;
  readonly checks?: readonly CompiledCheck[];
  readonly system?: TestedSystem;
  readonly damper?: TestedDamper;
  readonly table?: LoadedTable;
}

interface DocumentKind {
  readonly schema: z.ZodType;
  load(source: YamlSource): Loaded;
}

/** Every kind of rule document; a new kind is a line here. */
const KINDS: { readonly [kind: string]: DocumentKind } = {
  'check-set': { schema: CheckSet, load: loadCheckSet },
  'tested-system': { schema: TestedSystemSchema, load: loadTestedSystem },
  'tested-damper': { schema: TestedDamperSchema, load: loadTestedDamper },
  'construction-table': { schema: ConstructionTableSchema, load: loadConstructionTable },
};

/** Throws {@link RuleDocumentError} for the first thing that is wrong in any of the documents. */
export function loadRules(documents: readonly RuleDocumentText[]): RuleSet {
  const infos: RuleInfo[] = [];
  const checks: CompiledCheck[] = [];
  const systems: TestedSystem[] = [];
  const dampers: TestedDamper[] = [];
  const tables: LoadedTable[] = [];
  for (const { file, text } of documents) {
    const source = readYaml(file, text);
    const loaded = kindOf(source).load(source);
    const sameId = infos.find(({ id }) => id === loaded.info.id);
    if (sameId) throw source.errorAt(['id'], `document id "${sameId.id}" is already used by ${sameId.file}`);
    for (const [i, check] of (loaded.checks ?? []).entries()) {
      const other = checks.find(({ definition }) => definition.id === check.definition.id);
      if (!other) continue;
      throw source.errorAt(['checks', i, 'id'], `check id "${other.definition.id}" is already used by ${other.file}`);
    }
    infos.push(loaded.info);
    checks.push(...(loaded.checks ?? []));
    if (loaded.system) systems.push(loaded.system);
    if (loaded.damper) dampers.push(loaded.damper);
    if (loaded.table) tables.push(loaded.table);
  }
  return { documents: infos, checks, systems, dampers, tables };
}

/** JSON Schema (2020-12) of each kind of document, briefs too, for completion and checks in editors. */
export function ruleJsonSchemas(): { [kind: string]: z.core.JSONSchema.BaseSchema } {
  const schemas = Object.entries(KINDS).map(([kind, { schema }]): [string, z.ZodType] => [kind, schema]);
  return Object.fromEntries(
    [...schemas, [BRIEF, ProjectBriefSchema] as const].map(([kind, schema]) => [
      kind,
      { title: `Ratedrun ${kind}`, ...z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }) },
    ]),
  );
}

const BRIEF = 'project-brief';

/** Whether the text says that it is a project brief, which is loaded by itself. */
export function isProjectBrief({ file, text }: RuleDocumentText): boolean {
  const { value } = readYaml(file, text);
  return typeof value === 'object' && value !== null && 'kind' in value && value.kind === BRIEF;
}

function kindOf(source: YamlSource): DocumentKind {
  const kinds = Object.keys(KINDS);
  const { value } = source;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw source.errorAt(
      [],
      `a rule document is a list of keys and values that begins with kind: ${kinds.join(' or ')}`,
    );
  }
  const kind = 'kind' in value ? value.kind : undefined;
  if (kind === undefined) throw source.errorAt([], `"kind" is missing; it must be ${kinds.join(' or ')}`);
  if (typeof kind === 'string' && Object.hasOwn(KINDS, kind)) return KINDS[kind]!;
  if (kind === BRIEF) {
    throw source.errorAt(['kind'], 'this is a project brief, not a rule document; give it as --project-brief');
  }
  throw source.errorAt(
    ['kind'],
    `there is no kind of rule document "${kind}"${perhaps(String(kind), kinds)}; known: ${kinds.join(', ')}`,
  );
}

function loadCheckSet(source: YamlSource): Loaded {
  const set = parseBySchema(source, CheckSet);
  requireSense(source, set);
  return {
    info: infoOf(source, set),
    checks: set.checks.map((check, i) => compileCheck(source, ['checks', i], check)),
  };
}

function loadTestedSystem(source: YamlSource): Loaded {
  const system = parseBySchema(source, TestedSystemSchema);
  requireSystemSense(source, system);
  const examples = placed(source, system.examples);
  return { info: infoOf(source, system), system: { ...system, file: source.file, examples } };
}

function loadTestedDamper(source: YamlSource): Loaded {
  const damper = parseBySchema(source, TestedDamperSchema);
  requireDamperSense(source, damper);
  const examples = placed(source, damper.examples);
  return { info: infoOf(source, damper), damper: { ...damper, file: source.file, examples } };
}

function loadConstructionTable(source: YamlSource): Loaded {
  const table = parseBySchema(source, ConstructionTableSchema);
  requireTableSense(source, table);
  const { id, rows } = table;
  return {
    info: infoOf(source, table),
    table: { id, file: source.file, rows, examples: placed(source, table.examples) },
  };
}

const placed = <T>(source: YamlSource, examples: readonly T[]) =>
  examples.map((definition, i) => ({ definition, line: source.lineOf(['examples', i]) }));

const infoOf = ({ file }: YamlSource, { id, version, status, source }: Omit<RuleInfo, 'file'>): RuleInfo => ({
  ...{ id, version, file, status, source },
});
