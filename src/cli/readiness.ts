/** `ratedrun readiness`: what the models hold and what they lack for this job; no rules applied. */
import { workerReader } from '../platform/worker-reader.js';
import { readFederation } from '../read/read-federation.js';
import { buildReadiness, writeReadiness } from '../report/readiness.js';
import { readModels } from './io.js';
import { startProgress } from './progress.js';
import type { Streams } from './streams.js';

export interface ReadinessOptions {
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
      onProgress: (file, done, of) => progress.report(`Read ${file}`, done / of),
    });
    progress.end();
    const ready = buildReadiness(federation);
    io.out.write(options.json ? `${JSON.stringify(ready, null, 2)}\n` : writeReadiness(ready));
    return 0;
  } finally {
    progress.end();
  }
}
