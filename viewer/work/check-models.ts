/** The whole review of models that were dropped: the same as the command line's. */
import { writeJson } from '../../src/report/json.js';
import { readReport } from '../../src/report/read-report.js';
import type { Report } from '../../src/report/schema.js';
import { writeGeometry } from '../../src/report/write-geometry.js';
import { briefOf, constructionsOf } from '../../src/review/documents.js';
import { factsOf, type ReviewFacts, writeFacts } from '../../src/review/facts-file.js';
import { review } from '../../src/review/review.js';
import type { Progress, ReadSoFar } from '../state/state.js';
import { browserReader } from './browser-reader.js';
import type { Answers, Asks } from './protocol.js';
import { NOTHING_READ, withFile } from './read-so-far.js';
import { SHIPPED_RULES, shippedRules } from './shipped-rules.js';

export interface Checked {
  readonly report: Report;
  readonly facts: ReviewFacts;
  readonly answers: Answers<'check'>;
}

const decode = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** @throws InputError, RuleDocumentError, ReportError */
export async function checkModels(asks: Asks<'check'>, onProgress: (progress: Progress) => void): Promise<Checked> {
  const rules = shippedRules();
  // What is wrong with these is said before anything is read.
  const brief = asks.brief ? briefOf(asks.brief.name, asks.brief.bytes, rules) : undefined;
  const previous = asks.previous ? readReport(decode(asks.previous.bytes)) : undefined;
  let read: ReadSoFar = NOTHING_READ;
  const say = (stage: string, share: number): void => onProgress({ stage, share, read });
  const made = await review(
    {
      models: asks.models,
      reader: browserReader((file, model) => {
        read = withFile(read, file, model);
      }),
      ...{ rules, constructions: constructionsOf(rules, rules), brief, previous },
      createdAt: new Date().toISOString().replace(/\.\d{3}Z$/, 'Z'),
      toolVersion: import.meta.env.RATEDRUN_VERSION,
    },
    { onProgress: say },
  );
  const { report, federation } = made;
  say('Drawing', 0);
  const geometry = writeGeometry(federation, report);
  const facts = factsOf({ ...made, rules: undefined, shipped: SHIPPED_RULES, brief });
  const files = { report: writeJson(report), facts: writeFacts(facts) };
  return { report, facts, answers: { report, geometry: bufferOf(geometry), files } };
}

/** Of these bytes alone. */
const bufferOf = (bytes: Uint8Array): ArrayBuffer =>
  bytes.byteLength === bytes.buffer.byteLength && bytes.buffer instanceof ArrayBuffer
    ? bytes.buffer
    : (bytes.slice().buffer as ArrayBuffer);
