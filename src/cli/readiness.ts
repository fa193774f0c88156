/** `ratedrun readiness`: what the models hold and what they lack for this job; no rules applied. */
import { availableParallelism } from 'node:os';
import { basename, dirname } from 'node:path';
import { packageVersion } from '../platform/package-root.js';
import { workerReader } from '../platform/worker-reader.js';
import { readFederation } from '../read/read-federation.js';
import { INFORMATION_REQUIREMENTS } from '../report/information-requirements.js';
import { buildReadiness, writeReadiness } from '../report/readiness.js';
import { writeIds } from '../report/write-ids.js';
import { jsonText } from '../words/json-text.js';
import { shippedConstructions } from './documents.js';
import { readModels, writeOutputs } from './io.js';
import { startProgress } from './progress.js';
import type { Streams } from './streams.js';

export interface ReadinessOptions {
  readonly ids?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export async function readiness(models: readonly string[], options: ReadinessOptions, io: Streams): Promise<number> {
  const progress = startProgress(io.err, options.quiet ?? false);
  try {
    const inputs = await readModels(models);
    progress.report(`Reading ${inputs.map((i) => i.name).join(', ')}`, 0);
    const federation = await readFederation(inputs, {
      reader: workerReader(),
      atOnce: availableParallelism(),
      constructions: await shippedConstructions(),
      onProgress: (file, done, of) => progress.report(`Read ${file}`, done / of),
    });
    progress.end();
    const ready = buildReadiness(federation);
    if (options.ids !== undefined) {
      const ids = writeIds(INFORMATION_REQUIREMENTS, packageVersion);
      await writeOutputs(
        dirname(options.ids),
        { [basename(options.ids)]: new TextEncoder().encode(ids) },
        { option: '--ids' },
      );
    }
    io.out.write(options.json ? jsonText(ready, 2) : writeReadiness(ready));
    return 0;
  } finally {
    progress.end();
  }
}
