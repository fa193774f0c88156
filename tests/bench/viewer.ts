/** The viewer in headless Chromium: how soon there is something to look at, how long the page is busy, how long a frame takes. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type Page, chromium as playwright } from 'playwright-core';
import { build, preview } from 'vite';
import { writeDemo } from '../../fixtures/write-demo.js';
import { ChromiumError, findChromium } from '../../src/platform/chromium.js';
import { packageRoot } from '../../src/platform/package-root.js';
import type { FrameTimes } from './frame-times.js';

const MAIN = join(packageRoot, 'dist', 'src', 'cli', 'main.js');
const BRIEF = join(packageRoot, 'fixtures', 'demo', 'brief.yaml');
const ELEMENTS = 50_000;

export interface ViewerTimes {
  /** ms from asking for the page to the first barrier that is drawn, the report served; wall clock. */
  readonly firstPicture: number;
  /** ms, the longest that the page was busy at once while it checked the demo's models, and when it showed them. */
  readonly longestTask: number;
  readonly check: number;
  readonly empty: FrameTimes;
  readonly full: FrameTimes;
}

/** Undefined: there is no Chromium. */
export async function viewerTimes(): Promise<ViewerTimes | undefined> {
  const chromium = chromiumHere();
  if (chromium === undefined) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'ratedrun-bench-'));
  const browser = await playwright.launch({
    executablePath: chromium,
    args: [
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    ],
  });
  try {
    const models = writeDemo(join(folder, 'models'));
    const report = join(folder, 'report');
    const asked = ['check', ...models, '--project-brief', BRIEF, '--out', report, '--write', 'glb,facts', '--quiet'];
    spawnSync(process.execPath, [MAIN, ...asked]);
    return {
      firstPicture: await served([report], (url) => firstPicture(browser, url)),
      ...(await served([], (url) => checking(browser, url, [...models, BRIEF]))),
      ...(await frames(browser, join(folder, 'frames'))),
    };
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function chromiumHere(): string | undefined {
  try {
    return findChromium();
  } catch (error) {
    if (error instanceof ChromiumError) return undefined;
    throw error;
  }
}

async function served<T>(args: readonly string[], use: (url: string) => Promise<T>): Promise<T> {
  const server = spawn(process.execPath, [MAIN, 'view', ...args], { stdio: ['ignore', 'pipe', 'ignore'] });
  try {
    const url = await new Promise<string>((done) => {
      server.stdout.on('data', (part: Buffer) => {
        const found = /http:\/\/[\d.:]+\//.exec(part.toString());
        if (found) done(found[0]);
      });
    });
    return await use(url);
  } finally {
    server.kill('SIGKILL');
  }
}

/** The first barrier that is drawn. */
const shown = (page: Page, timeout: number): Promise<void> =>
  page.locator('rr-barrier-faces [data-id]').first().waitFor({ state: 'attached', timeout });

/** Scripts of pages are texts here: this program has no page's types. */
async function firstPicture(browser: Browser, url: string): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < 5; i++) {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    await page.goto(url, { waitUntil: 'commit' });
    await shown(page, 30_000);
    times.push(await page.evaluate<number>('performance.now()'));
    await page.close();
  }
  return times.sort((a, b) => a - b)[2]!;
}

async function checking(browser: Browser, url: string, files: readonly string[]) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  await page.goto(url);
  await page.evaluate(
    `window.tasks = []; new PerformanceObserver((list) => { for (const { duration } of list.getEntries()) tasks.push(duration); }).observe({ entryTypes: ['longtask'] })`,
  );
  const start = performance.now();
  await page.locator('rr-opening-page input').setInputFiles([...files]);
  await shown(page, 180_000);
  const check = performance.now() - start;
  const longestTask = await page.evaluate<number>('Math.max(0, ...window.tasks)');
  await page.close();
  return { check, longestTask };
}

async function frames(browser: Browser, outDir: string): Promise<Pick<ViewerTimes, 'empty' | 'full'>> {
  const root = join(packageRoot, 'tests', 'viewer', 'bench');
  const common = { root, configFile: false, logLevel: 'error', build: { outDir, target: 'es2022' } } as const;
  await build(common);
  const server = await preview({ ...common, preview: { host: '127.0.0.1', port: 0 } });
  try {
    const page = await browser.newPage();
    await page.goto(server.resolvedUrls!.local[0]!);
    await page.waitForFunction('window.frameTimes');
    const empty = await page.evaluate<FrameTimes>('window.frameTimes(0)');
    const full = await page.evaluate<FrameTimes>(`window.frameTimes(${ELEMENTS})`);
    return { empty, full };
  } finally {
    await server.close();
  }
}
