/**
 * `ratedrun check --watch`: answers with the outcomes as soon as something changes, and writes the outputs after it. What did
 * not change stays in memory: models, what was found in them, documents, and what their checks look at.
 */
import { resolve } from 'node:path';
import { type FileChange, FileWatch } from '../../platform/file-watch.js';
import { interrupted } from '../../platform/signals.js';
import type { CheckOptions } from '../check.js';
import { isYaml, standingIn, UsageError } from '../io.js';
import { outputWords } from '../outputs.js';
import type { Streams } from '../streams.js';
import { Watched } from './watched.js';

/**
 * @param until ends it; left out: it goes on until the process is told to stop
 * @returns the exit code of the last answer
 * @throws UsageError
 */
export async function watch(
  models: readonly string[],
  options: CheckOptions,
  io: Streams,
  until: Promise<void> = interrupted(),
): Promise<number> {
  // Chromium would go on printing what is out of date.
  if (outputWords(options.write).includes('pdf'))
    throw new UsageError('--watch prints no PDF; leave pdf out of --write, and check once without --watch for it.');
  const at = (path: string): string => resolve(standingIn(), path);
  const own = new Set(models.map(at));
  const { projectBrief } = options;
  const documents = [...(options.rules ?? []), ...(projectBrief === undefined ? [] : [projectBrief])];
  const files = new FileWatch([...own, ...documents.map(at)], isYaml);
  await files.begin();
  const watched = new Watched(models, options, io);
  const stopped = until.then(() => watched.stop());
  try {
    let change: FileChange | undefined = { paths: [...own], noticed: performance.now() };
    while (change) {
      const modelsChanged = change.paths.some((path) => own.has(path));
      await watched.answer(change, modelsChanged);
      change = await Promise.race([stopped.then(() => undefined), files.next()]);
    }
    return watched.code;
  } finally {
    files.close();
  }
}
