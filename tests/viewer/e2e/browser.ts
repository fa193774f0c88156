/** The built viewer in headless Chromium, with the report of the demo building as `check` writes it. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type axe from 'axe-core';
import { type Browser, type Page, chromium as playwright } from 'playwright-core';
import { afterAll } from 'vitest';
import { writeDemo } from '../../../fixtures/write-demo.js';
import { once } from '../../../src/collect.js';
import { chromium } from '../../chromium.js';

const MAIN = resolve('dist/src/cli/main.js');
/** Pictures of every screen, to be looked at; kept until the next run. */
const PICTURES = resolve('dist/screenshots');

/** Models, brief and report of the demo building, made once for all tests of a worker. */
export const demoFolder = once((): { models: string[]; brief: string; report: string } => {
  const folder = join(tmpdir(), `ratedrun-viewer-${process.pid}`);
  const models = writeDemo(join(folder, 'models'));
  const brief = resolve('fixtures/demo/brief.yaml');
  const report = join(folder, 'report');
  const args = ['check', ...models, '--project-brief', brief, '--out', report, '--write', 'glb,facts', '--quiet'];
  const ran = spawnSync(process.execPath, [MAIN, ...args, '--revision', 'B'], { encoding: 'utf8' });
  if (ran.status !== 1) throw new Error(`the demo was not checked: ${ran.status} ${ran.stderr}`);
  return { models, brief, report };
});

/** @param folder of a report; left out: the viewer waits for models */
export async function serve(folder?: string): Promise<string> {
  const child = spawn(process.execPath, [MAIN, 'view', ...(folder === undefined ? [] : [folder])]);
  servers.push(child);
  return new Promise((done, failed) => {
    let said = '';
    child.once('exit', (code) => failed(new Error(`the server ended with ${code}: ${said}`)));
    child.stderr.on('data', (part: Buffer) => {
      said += part.toString();
    });
    child.stdout.on('data', (part: Buffer) => {
      const found = /http:\/\/[\d.:]+\//.exec(part.toString());
      if (found) done(found[0]);
    });
  });
}
const servers: ChildProcess[] = [];

const launch = (): Promise<Browser> =>
  playwright.launch({
    executablePath: chromium!,
    // Software drawing, the same on every machine; Chromium refuses its sandbox to root.
    args: [
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      '--disable-background-networking',
      '--disable-component-update',
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    ],
  });

/** Of the test file that runs: the next one in the same worker starts its own. */
let browser: Promise<Browser> | undefined;

export function closeAll(): void {
  afterAll(async () => {
    for (const child of servers.splice(0)) child.kill('SIGKILL');
    const open = browser;
    browser = undefined;
    await (await open)?.close();
  });
}

export interface Look {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: 'light' | 'dark';
  readonly touch?: boolean;
}

/** Faults of a page: none is expected anywhere. */
export interface OpenPage {
  readonly page: Page;
  readonly faults: string[];
}

/** @param prepare what has to stand before the first script runs */
export async function openPage(
  url: string,
  look: Look = {},
  prepare: (page: Page) => Promise<void> = async () => {},
): Promise<OpenPage> {
  browser ??= launch();
  const { width = 1280, height = 720, theme = 'light', touch = false } = look;
  const context = await (await browser).newContext({
    viewport: { width, height },
    colorScheme: theme,
    hasTouch: touch,
    locale: 'en-GB',
    reducedMotion: 'reduce',
    acceptDownloads: true,
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  // Nothing may leave this machine, and nothing may come from elsewhere.
  const { origin } = new URL(url);
  page.on('request', (request) => {
    if (!request.url().startsWith(origin) && !/^(?:data|blob):/.test(request.url()))
      faults.push(`asked for ${request.url()}`);
  });
  await prepare(page);
  await page.goto(url);
  return { page, faults };
}

export async function picture(page: Page, name: string): Promise<void> {
  mkdirSync(PICTURES, { recursive: true });
  await page.screenshot({ path: join(PICTURES, `${name}.png`) });
}

const axeSource = once(() => readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));

/** What axe-core (WCAG 2.2 A and AA, best practice) finds serious or critical, one line each. */
export async function seriousViolations(page: Page): Promise<string[]> {
  await page.evaluate(axeSource());
  const results = await page.evaluate(() => (window as unknown as { axe: typeof axe }).axe.run(document));
  return results.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')} ${failureSummary}`),
    );
}
