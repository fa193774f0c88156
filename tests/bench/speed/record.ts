/**
 * Loaded into the program that is timed (`node --import`): notes what it has used whenever it says on stderr that another
 * stage begins, and at its end, and leaves that in the file that RATEDRUN_BENCH_RECORD names.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

export interface Mark {
  /** As the program says it; '' at its end. */
  readonly stage: string;
  /** ms since the program began. */
  readonly wall: number;
  /** ms of all its threads. */
  readonly processor: number;
  /** MB at most so far. */
  readonly peak: number;
}

/** Where Linux tells it: what getrusage says begins with the memory of the process that started this one. */
function peakOfProcess(): number {
  try {
    const line = /VmHWM:\s*(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8'));
    if (line) return Number(line[1]) / 1024;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  return process.resourceUsage().maxRSS / 1024;
}

function markOf(stage: string): Mark {
  const { user, system } = process.cpuUsage();
  return { stage, wall: performance.now(), processor: (user + system) / 1000, peak: peakOfProcess() };
}

const path = process.env.RATEDRUN_BENCH_RECORD;
if (isMainThread && path !== undefined) {
  const marks: Mark[] = [];
  const write = process.stderr.write.bind(process.stderr);
  process.stderr.write = ((chunk: string | Uint8Array, ...rest: []): boolean => {
    marks.push(markOf(String(chunk).trim()));
    return write(chunk, ...rest);
  }) as typeof process.stderr.write;
  process.on('exit', () => writeFileSync(path, JSON.stringify([...marks, markOf('')])));
}
