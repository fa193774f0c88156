/** One wall, one opening, one duct, read and judged by the shipped rules; the right gap is 40, the bottom one 70 mm. */
import { readFileSync } from 'node:fs';
import { DUCT, OPENING, WALL } from '../fixtures/cases/base.js';
import { ModelBuilder } from '../fixtures/model-builder.js';
import { findPenetrations } from '../src/find/find-penetrations.js';
import type { Crossings, Federation } from '../src/model.js';
import { readFederation } from '../src/read/read-federation.js';
import { buildReport } from '../src/report/build-report.js';
import type { Report } from '../src/report/schema.js';
import { judgeWithResults, loadRules } from '../src/rules/index.js';

export interface Reviewed {
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly report: Report;
}

const rules = loadRules(
  ['common-practice.yaml', 'published-values.yaml'].map((file) => ({
    file,
    text: readFileSync(`rules/${file}`, 'utf8'),
  })),
);

/** @param more adds to the model before it is read */
export async function reviewOneWall(
  opening: Partial<typeof OPENING> = {},
  more: (b: ModelBuilder) => void = () => {},
): Promise<Reviewed> {
  const b = new ModelBuilder({ fileName: 'one-wall.ifc' });
  b.opening(b.wall(WALL), { ...OPENING, ...opening });
  b.duct(DUCT);
  more(b);
  return review([{ name: 'one-wall.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
}

export async function review(
  files: readonly { readonly name: string; readonly bytes: Uint8Array }[],
): Promise<Reviewed> {
  const federation = await readFederation(files);
  const crossings = findPenetrations(federation);
  const { judgement, results } = judgeWithResults(crossings, rules, { models: federation.models });
  const report = buildReport({
    models: federation.models,
    crossings,
    judgement,
    results,
    createdAt: '2026-01-02T03:04:05Z',
    toolVersion: '0.1.0',
  });
  return { federation, crossings, report };
}
