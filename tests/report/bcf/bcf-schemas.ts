/** Validates the XML parts of BCF files against the published schemas (buildingSMART, BCF-XML 2.1 and 3.0) with libxml2. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { XmlDocument, XsdValidator, xmlCleanupInputProvider } from 'libxml2-wasm';
import { xmlRegisterFsInputProviders } from 'libxml2-wasm/lib/nodejs.mjs';
import type { Entries } from '../../../src/report/bcf/archive.js';
import type { BcfVersion } from '../../../src/report/bcf/topic.js';

const STANDARDS = resolve('..', 'shared', 'standards');
export const hasStandards = existsSync(STANDARDS);
if (!hasStandards)
  process.stdout.write('Tests against the BCF schemas are skipped: ../shared/standards is not there.\n');

const CASES = join(STANDARDS, 'bcf-cases');
export const caseFiles: readonly string[] = hasStandards ? readdirSync(CASES).sort() : ['(no shared standards)'];
export const caseBytes = (name: string): Uint8Array => readFileSync(join(CASES, name));

const SCHEMAS: readonly (readonly [RegExp, string])[] = [
  [/^bcf\.version$/, 'version'],
  [/^extensions\.xml$/, 'extensions'],
  [/^project\.bcfp$/, 'project'],
  [/^documents\.xml$/, 'documents'],
  [/\/markup\.bcf$/, 'markup'],
  [/\.bcfv$/, 'visinfo'],
];

/** What is wrong with the parts of a file, by path; empty where all of them are valid. */
export function faultsOf(entries: Entries, version: BcfVersion): string[] {
  xmlCleanupInputProvider();
  xmlRegisterFsInputProviders();
  return [...entries].flatMap(([path, content]) => {
    const schema = SCHEMAS.find(([pattern]) => pattern.test(path))?.[1];
    return schema === undefined
      ? []
      : faults(content, join(STANDARDS, `bcf-${version}`, `${schema}.xsd`)).map((f) => `${path}: ${f}`);
  });
}

function faults(content: Uint8Array, xsd: string): string[] {
  const schema = XmlDocument.fromBuffer(readFileSync(xsd), { url: xsd });
  const validator = XsdValidator.fromDoc(schema);
  const document = XmlDocument.fromBuffer(content);
  try {
    validator.validate(document);
    return [];
  } catch (error) {
    return [String(error instanceof Error ? error.message : error).trim()];
  } finally {
    document.dispose();
    validator.dispose();
    schema.dispose();
  }
}
