import * as z from 'zod';
import type { RuleInfo } from '../model.js';
import { CheckSet } from './check-set.js';
import { requireSense } from './check-set-sense.js';
import { citeAll, type PublishedValues } from './cite.js';
import { perhaps } from './closest.js';
import { compileCheck } from './compile-check.js';
import { ConstructionTableSchema, requireTableSense } from './construction-table.js';
import { FlangeTableSchema, requireFlangeSense } from './flange-table.js';
import { ProjectBriefSchema } from './project-brief.js';
import { PublishedValuesSchema, requireValuesSense } from './published-values.js';
import type { CompiledCheck, RuleSet } from './rule-set.js';
import { parseBySchema } from './schema-issues.js';
import { ServiceTableSchema, serviceRowsOf } from './service-table.js';
import { TestedDamperSchema } from './tested-damper.js';
import { requireDamperSense } from './tested-damper-sense.js';
import { TestedSystemSchema } from './tested-system.js';
import { requireSystemSense } from './tested-system-sense.js';
import { readYaml, type YamlSource } from './yaml-source.js';

export interface RuleDocumentText {
  readonly file: string;
  readonly text: string;
}

interface Loaded extends Partial<Omit<RuleSet, 'documents'>> {
  readonly info: RuleInfo;
}

interface DocumentKind {
  readonly schema: z.ZodType;
  load(source: YamlSource, values: PublishedValues): Loaded;
}

const PUBLISHED = 'published-values';

/** Every kind of rule document; a new kind is a line here. */
const KINDS: { readonly [kind: string]: DocumentKind } = {
  'check-set': { schema: CheckSet, load: loadCheckSet },
  'tested-system': { schema: TestedSystemSchema, load: loadTestedSystem },
  'tested-damper': { schema: TestedDamperSchema, load: loadTestedDamper },
  'construction-table': { schema: ConstructionTableSchema, load: loadConstructionTable },
  'service-table': { schema: ServiceTableSchema, load: loadServiceTable },
  [PUBLISHED]: { schema: PublishedValuesSchema, load: loadPublishedValues },
  'flange-table': { schema: FlangeTableSchema, load: loadFlangeTable },
};

/**
 * @param known published values that the documents may name without bringing them; their own come first
 * @throws RuleDocumentError for the first thing that is wrong in any of the documents
 */
export function loadRules(
  documents: readonly RuleDocumentText[],
  known: Pick<RuleSet, 'published'> = { published: [] },
): RuleSet {
  const sources = documents.map(sourceOf);
  const kinds = sources.map((source) => ({ source, kind: kindOf(source) }));
  // What others name comes first.
  const cited = new Map(
    kinds.flatMap(({ source, kind }) =>
      kind === KINDS[PUBLISHED] ? [[source, loadOnce(source, kind, [])] as const] : [],
    ),
  );
  const own = [...cited.values()].flatMap(({ published = [] }) => published);
  const published = [...own, ...known.published.filter(({ id }) => !own.some((one) => one.id === id))];
  const infos: RuleInfo[] = [];
  const checks: CompiledCheck[] = [];
  const rest: Loaded[] = [];
  for (const { source, kind } of kinds) {
    const loaded: Loaded = cited.get(source) ?? loadOnce(source, kind, published);
    const sameId = infos.find(({ id }) => id === loaded.info.id);
    if (sameId) throw source.errorAt(['id'], `document id "${sameId.id}" is already used by ${sameId.file}`);
    for (const [i, check] of (loaded.checks ?? []).entries()) {
      const other = checks.find(({ definition }) => definition.id === check.definition.id);
      if (!other) continue;
      throw source.errorAt(['checks', i, 'id'], `check id "${other.definition.id}" is already used by ${other.file}`);
    }
    for (const [i, { id }] of (loaded.published ?? []).entries()) {
      if (own.filter((value) => value.id === id).length < 2) continue;
      throw source.errorAt(['values', i, 'id'], `the published value "${id}" stands in another document too; keep one`);
    }
    infos.push(loaded.info);
    checks.push(...(loaded.checks ?? []));
    rest.push(loaded);
  }
  return {
    documents: infos,
    checks,
    systems: rest.flatMap(({ systems = [] }) => systems),
    dampers: rest.flatMap(({ dampers = [] }) => dampers),
    tables: rest.flatMap(({ tables = [] }) => tables),
    flanges: rest.flatMap(({ flanges = [] }) => flanges),
    services: rest.flatMap(({ services = [] }) => services),
    published: own,
  };
}

/**
 * What a document comes to hangs on its text and on published values alone: where many are loaded again after one was
 * changed, that one is compiled.
 */
const LOADED = new WeakMap<YamlSource, { readonly values: PublishedValues; readonly loaded: Loaded }>();

function loadOnce(source: YamlSource, kind: DocumentKind, values: PublishedValues): Loaded {
  const before = LOADED.get(source);
  const isSame = before?.values.length === values.length && before.values.every((value, i) => value === values[i]);
  if (before && isSame) return before.loaded;
  const loaded = kind.load(source, values);
  LOADED.set(source, { values, loaded });
  return loaded;
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

/** The form of documents of one kind, briefs too. */
export const schemaOf = (kind: string): z.ZodType => (kind === BRIEF ? ProjectBriefSchema : KINDS[kind]!.schema);

const BRIEF = 'project-brief';

/** Who asks whether a document is a brief loads it next: it is parsed once. */
const SOURCES = new WeakMap<RuleDocumentText, YamlSource>();

/** The text as YAML, with the places of what stands in it. */
export function sourceOf(document: RuleDocumentText): YamlSource {
  const source = SOURCES.get(document) ?? readYaml(document.file, document.text);
  SOURCES.set(document, source);
  return source;
}

/** Whether the text says that it is a project brief, which is loaded by itself. */
export function isProjectBrief(document: RuleDocumentText): boolean {
  const { value } = sourceOf(document);
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
  if (typeof kind !== 'string') throw source.errorAt(['kind'], `"kind" must be ${kinds.join(' or ')}`);
  if (Object.hasOwn(KINDS, kind)) return KINDS[kind]!;
  if (kind === BRIEF) {
    throw source.errorAt(['kind'], 'this is a project brief, not a rule document; give it as --project-brief');
  }
  throw source.errorAt(
    ['kind'],
    `there is no kind of rule document "${kind}"${perhaps(kind, kinds)}; known: ${kinds.join(', ')}`,
  );
}

function loadCheckSet(source: YamlSource, values: PublishedValues): Loaded {
  const set = citeAll(source, parseBySchema(source, CheckSet), values);
  requireSense(source, set);
  return {
    info: infoOf(source, set),
    checks: set.checks.map((check, i) => compileCheck(source, ['checks', i], check)),
  };
}

function loadTestedSystem(source: YamlSource): Loaded {
  const system = parseBySchema(source, TestedSystemSchema);
  requireSystemSense(source, system);
  return {
    info: infoOf(source, system),
    systems: [{ ...system, file: source.file, examples: placed(source, system.examples) }],
  };
}

function loadTestedDamper(source: YamlSource): Loaded {
  const damper = parseBySchema(source, TestedDamperSchema);
  requireDamperSense(source, damper);
  return {
    info: infoOf(source, damper),
    dampers: [{ ...damper, file: source.file, examples: placed(source, damper.examples) }],
  };
}

function loadConstructionTable(source: YamlSource): Loaded {
  const table = parseBySchema(source, ConstructionTableSchema);
  requireTableSense(source, table);
  const { id, rows, examples } = table;
  return {
    info: infoOf(source, table),
    tables: [{ id, file: source.file, rows, examples: placed(source, examples) }],
  };
}

function loadFlangeTable(source: YamlSource): Loaded {
  const table = parseBySchema(source, FlangeTableSchema);
  requireFlangeSense(source, table);
  const { id, shapes, flangeHeight, examples } = table;
  return {
    info: infoOf(source, table),
    flanges: [{ id, file: source.file, shapes, flangeHeight, examples: placed(source, examples) }],
  };
}

function loadServiceTable(source: YamlSource, values: PublishedValues): Loaded {
  const table = parseBySchema(source, ServiceTableSchema);
  const rows = serviceRowsOf(source, table, values);
  return {
    info: infoOf(source, table),
    services: [{ id: table.id, file: source.file, rows, examples: placed(source, table.examples) }],
  };
}

function loadPublishedValues(source: YamlSource): Loaded & Pick<RuleSet, 'published'> {
  const document = parseBySchema(source, PublishedValuesSchema);
  requireValuesSense(source, document);
  const published = document.values.map((value) => ({ ...value, status: document.status }));
  return { info: infoOf(source, document), published };
}

const infoOf = ({ file }: YamlSource, document: Omit<RuleInfo, 'file'>): RuleInfo => {
  const { id, version, status, source } = document;
  return { id, version, file, status, source };
};

const placed = <T>(source: YamlSource, examples: readonly T[]): { readonly definition: T; readonly line: number }[] =>
  examples.map((definition, i) => ({ definition, line: source.lineOf(['examples', i]) }));
