/** `ratedrun view`: serves the viewer on loopback, for a finished report, for models after checking them, or empty. */
import { stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { type LocalServer, type Served, startLocalServer } from '../platform/local-server.js';
import { packageRoot } from '../platform/package-root.js';
import { fileIn, filesUnder } from '../platform/served-files.js';
import { interrupted } from '../platform/signals.js';
import { FACTS_FILE } from '../review/facts-file.js';
import { GEOMETRY_FILE } from '../scene/geometry-extras.js';
import { type CheckOptions, check } from './check.js';
import { readOutputs, standingIn, UsageError, writeOutputs } from './io.js';
import { REPORT_FILE, readReportIn } from './read-report.js';
import type { Streams } from './streams.js';

export interface ViewOptions extends Pick<CheckOptions, 'projectBrief' | 'rules' | 'out' | 'quiet'> {
  readonly port?: number;
}

/** What the page may fetch of a report, and where it writes the brief that was changed there. */
const OF_REPORT: readonly string[] = [REPORT_FILE, GEOMETRY_FILE, FACTS_FILE];
const REVIEW = '/review/';
const PAGE = '/index.html';
export const CHANGED_BRIEF = 'brief.yaml';

/** @param until ends the server; left out: it runs until the process is told to stop */
export async function view(
  named: readonly string[],
  options: ViewOptions,
  io: Streams,
  until: () => Promise<void> = interrupted,
): Promise<number> {
  const folder = await reportFolder(named, options, io);
  const server = await serve(folder, options.port);
  const stop = until(); // from here on: before, a signal ends the check
  io.out.write(`${server.url} shows ${folder ?? 'the viewer; drop models there'}. Stop it with Ctrl+C.\n`);
  await stop;
  await server.close();
  return 0;
}

/** A folder with a report, or models that are checked first. */
async function reportFolder(named: readonly string[], options: ViewOptions, io: Streams): Promise<string | undefined> {
  const [first] = named;
  if (first === undefined) return undefined;
  const isFolder = await stat(resolve(standingIn(), first)).then(
    (found) => found.isDirectory(),
    () => false, // what is not there is said by whoever reads it
  );
  if (!isFolder) {
    await check(named, { ...options, cache: true, write: 'xlsx,bcf,html,ifc,glb,facts' }, { ...io, out: io.err });
    return options.out;
  }
  if (named.length > 1) throw new UsageError(`${first} is a folder; name one folder of a report, or models.`);
  await readReportIn(first);
  return first;
}

async function serve(folder: string | undefined, port?: number): Promise<LocalServer> {
  const pages = join(packageRoot, 'dist', 'viewer');
  const listed = await filesUnder(pages);
  let review = await reviewIn(folder);
  const read: Served = async (path) => {
    if (path.startsWith(REVIEW)) return review.get(path.slice(REVIEW.length));
    // A page asks for one file after the other; all are of the review that there was when the page itself was asked for.
    if (path === PAGE) review = await reviewIn(folder);
    // Only what was there when we started: no path leads out of the folder.
    return listed.has(path) ? fileIn(pages, path.slice(1)) : undefined;
  };
  const write = {
    [`${REVIEW}${CHANGED_BRIEF}`]: async (bytes: Uint8Array) => {
      if (folder === undefined) throw new UsageError('no folder is served to write into');
      const [written] = await writeOutputs(folder, { [CHANGED_BRIEF]: bytes });
      return basename(written!);
    },
  };
  try {
    return await startLocalServer({ read, write, ...(port !== undefined && { port }) });
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EADDRINUSE')
      throw new UsageError(`port ${port} is taken; choose another with --port.`);
    throw error;
  }
}

/** All files of one review by name; none of what is not there: an older report has fewer. */
async function reviewIn(folder: string | undefined): Promise<ReadonlyMap<string, Uint8Array>> {
  if (folder === undefined) return new Map();
  const at = resolve(standingIn(), folder);
  const read = () => Promise.all(OF_REPORT.map((file) => fileIn(at, file)));
  const files = await readOutputs(folder, OF_REPORT, read);
  return new Map(OF_REPORT.flatMap((file, i) => (files[i] ? [[file, files[i]] as const] : [])));
}
