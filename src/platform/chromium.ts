/** Prints HTML to PDF through a headless Chromium, where the machine has one. */
import { type ChildProcess, spawn } from 'node:child_process';
import { accessSync, constants, rmSync, statSync } from 'node:fs';
import { mkdtemp, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { STOP_SIGNALS } from './signals.js';

/** One clear line: what is missing or went wrong, and what to do. */
export class ChromiumError extends Error {}

/** The environment variable that names the program. */
export const CHROMIUM_VARIABLE = 'RATEDRUN_CHROMIUM';
const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

/** @throws ChromiumError where there is none */
export function findChromium(env: NodeJS.ProcessEnv = process.env): string {
  const named = env[CHROMIUM_VARIABLE];
  if (named !== undefined && named !== '') {
    if (canRun(resolve(named))) return resolve(named);
    throw new ChromiumError(`${CHROMIUM_VARIABLE} is ${named}, which is no program that can be run; correct the path.`);
  }
  const names = process.platform === 'win32' ? NAMES.map((name) => `${name}.exe`) : NAMES;
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const found = names.flatMap((name) => folders.map((folder) => join(folder, name))).find(canRun);
  if (found !== undefined) return found;
  throw new ChromiumError(
    `--write pdf needs Chromium, and none is on PATH; install it, or name the program in ${CHROMIUM_VARIABLE}.`,
  );
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false; // not there, or not ours to run: the next one is asked
  }
}

/** 813 pages took 150 s on two busy cores. */
const MOST_SECONDS = 600;

export interface PrintOptions {
  /** Stands in the file as its date; the day of printing would make every file another one. */
  readonly createdAt: Date;
  /** Seconds. */
  readonly timeout?: number;
}

/**
 * Nothing is fetched, and nothing stays behind: profile, page and PDF are in one folder that goes.
 *
 * @throws ChromiumError
 */
export async function printToPdf(
  chromium: string,
  html: Uint8Array,
  { createdAt, timeout = MOST_SECONDS }: PrintOptions,
): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), 'ratedrun-print-'));
  const remove = (): void => rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  try {
    const page = join(folder, 'report.html');
    const pdf = join(folder, 'report.pdf');
    await writeFile(page, html);
    await run(chromium, [...flags(folder), `--print-to-pdf=${pdf}`, pathToFileURL(page).href], folder, timeout, remove);
    return dated(await wholePdf(pdf, chromium), createdAt);
  } finally {
    remove();
  }
}

const flags = (folder: string): string[] => [
  '--headless',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--disable-extensions',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--no-default-browser-check',
  // No name leads anywhere, whatever a page may ask for.
  '--host-resolver-rules=MAP * ~NOTFOUND',
  `--user-data-dir=${join(folder, 'profile')}`,
  '--no-pdf-header-footer',
  '--generate-pdf-document-outline',
  // Chromium refuses its sandbox to root, as whom containers run; the page holds no script and may load nothing.
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
];

/** Its own process group, so that what it starts ends with it, also when we are stopped ourselves. */
async function run(
  chromium: string,
  args: readonly string[],
  folder: string,
  timeout: number,
  remove: () => void,
): Promise<void> {
  const env = { ...process.env, HOME: folder, XDG_CONFIG_HOME: folder, XDG_CACHE_HOME: folder, TMPDIR: folder };
  const child = spawn(chromium, args, { stdio: 'ignore', detached: process.platform !== 'win32', env });
  const stopped = (signal: NodeJS.Signals): void => {
    end(child);
    remove();
    process.kill(process.pid, signal);
  };
  for (const signal of STOP_SIGNALS) process.once(signal, stopped);
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    end(child);
  }, timeout * 1000);
  try {
    const code = await new Promise<number | string | null>((done, failed) => {
      child.once('error', failed);
      child.once('exit', (exit, signal) => done(exit ?? signal));
    });
    if (late) throw fault(chromium, `took longer than ${timeout} s`);
    if (code !== 0) throw fault(chromium, `stopped with ${code}`);
  } catch (error) {
    if (error instanceof ChromiumError) throw error;
    throw fault(chromium, `can't be started (${error instanceof Error ? error.message : String(error)})`);
  } finally {
    clearTimeout(timer);
    for (const signal of STOP_SIGNALS) process.off(signal, stopped);
    end(child);
  }
}

function end(child: ChildProcess): void {
  if (child.pid === undefined) return;
  try {
    if (process.platform === 'win32') child.kill('SIGKILL');
    else process.kill(-child.pid, 'SIGKILL');
  } catch (error) {
    // ESRCH: all of it has ended already.
    if (!(error instanceof Error && 'code' in error && error.code === 'ESRCH')) throw error;
  }
}

async function wholePdf(path: string, chromium: string): Promise<Buffer> {
  const bytes = await readFile(path).catch(() => undefined); // it says 0 too where it wrote nothing
  if (bytes?.subarray(0, 5).toString('latin1') === '%PDF-' && bytes.subarray(-8).includes('%%EOF')) return bytes;
  throw fault(chromium, 'wrote no whole PDF');
}

const fault = (chromium: string, what: string): ChromiumError =>
  new ChromiumError(
    `${chromium} ${what}, so report.pdf was not made; name another Chromium in ${CHROMIUM_VARIABLE}, or print report.html.`,
  );

/** Dates of the file are those of the review; they are as long as those they replace, so nothing moves. */
function dated(pdf: Buffer, createdAt: Date): Uint8Array {
  const stamp = createdAt.toISOString().replace(/[-:T]/g, '').slice(0, 14);
  const text = pdf
    .toString('latin1')
    .replace(/(\/(?:CreationDate|ModDate) ?\(D:)\d{14}[^)]{7}\)/g, `$1${stamp}+00'00')`);
  return Buffer.from(text, 'latin1');
}
