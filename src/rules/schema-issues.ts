import * as z from 'zod';
import { perhaps } from './closest.js';
import type { RuleDocumentError } from './rule-document-error.js';
import type { YamlSource } from './yaml-source.js';

/** Reads a document's value by its schema; throws the first thing that is wrong, at its place. */
export function parseBySchema<T>(source: YamlSource, schema: z.ZodType<T>): T {
  const result = schema.safeParse(source.value);
  if (result.success) return result.data;
  // A misspelt key is both unknown and missed; that it is unknown says more.
  const issues = result.error.issues.map((issue) => innermost(source, issue));
  throw describeIssue(source, schema, issues.find(({ code }) => code === 'unrecognized_keys') ?? issues[0]!);
}

/** Where one of several forms is asked for and an object was given, what is wrong in the object says more. */
function innermost(source: YamlSource, issue: z.core.$ZodIssue): z.core.$ZodIssue {
  const given = valueAt(source.value, issue.path);
  if (issue.code !== 'invalid_union' || typeof given !== 'object' || given === null) return issue;
  const [inside] = issue.errors.filter(
    ([first]) => first && (first.path.length > 0 || first.code === 'unrecognized_keys'),
  );
  const [first] = inside ?? [];
  return first ? innermost(source, { ...first, path: [...issue.path, ...first.path] }) : issue;
}

function describeIssue(source: YamlSource, schema: z.ZodType, issue: z.core.$ZodIssue): RuleDocumentError {
  if (issue.code === 'unrecognized_keys') {
    const key = issue.keys[0]!;
    const known = keysAt(z.toJSONSchema(schema, { io: 'input' }), issue.path);
    return source.errorAtKey(
      [...issue.path, key],
      `unknown key "${key}"${perhaps(key, known)}; known here: ${known.join(', ')}`,
    );
  }
  const name = String(issue.path.at(-1) ?? 'the document');
  if (valueAt(source.value, issue.path) === undefined && issue.path.length > 0) {
    return source.errorAt(issue.path, `"${name}" is missing; ${what(issue)}`);
  }
  return source.errorAt(issue.path, `"${name}": ${what(issue)}`);
}

/** zod says what is expected; its opening words say nothing that the place does not. */
const what = (issue: z.core.$ZodIssue): string =>
  issue.message.replace(/^Invalid (input|option): /, '').replace(/, received undefined$/, '');

const valueAt = (value: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (inner, key) => (typeof inner === 'object' && inner !== null ? Reflect.get(inner, key) : undefined),
    value,
  );

/** The keys that an object at `path` may have, from the schema itself. */
function keysAt(schema: z.core.JSONSchema.BaseSchema, path: readonly PropertyKey[]): string[] {
  const [step, ...rest] = path;
  if (schema.anyOf) return schema.anyOf.flatMap((option) => (typeof option === 'object' ? keysAt(option, path) : []));
  if (step === undefined) return Object.keys(schema.properties ?? {});
  const next = typeof step === 'number' ? schema.items : schema.properties?.[String(step)];
  return typeof next === 'object' && !Array.isArray(next) ? keysAt(next, rest) : [];
}
