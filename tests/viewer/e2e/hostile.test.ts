/**
 * The viewer with a report whose every text is hostile: nothing runs, nothing is asked for elsewhere, no policy is violated, and
 * the page is made of what it is made of with harmless texts. CSP Level 3: `securitypolicyviolation`.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import { chromium } from '../../chromium.js';
import { checkModels, FOR_PAGES, writeModels } from '../../hostile/program.js';
import { HARMLESS, type HostileText } from '../../hostile/strings.js';
import { closeAll, openPage, serve } from './browser.js';

const folder = mkdtempSync(join(tmpdir(), 'ratedrun-hostile-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function reportOf(texts: readonly HostileText[], name: string): string {
  const models = writeModels(join(folder, name), texts);
  const options = ['--out', 'report', '--write', 'glb,facts', '--quiet'];
  const ran = checkModels(join(folder, name), models, ...options);
  if (ran.code !== 1) throw new Error(`${name} was not checked: ${ran.code} ${ran.err}`);
  return join(folder, name, 'report');
}

interface Seen {
  /** Elements and attributes of all roots: `div`, `div class`. */
  readonly made: readonly string[];
  readonly said: string;
}

/** Notes what a page must never do, from before its first script on. */
async function watch(page: Page): Promise<() => Promise<string[]>> {
  await page.addInitScript(() => {
    const noted: string[] = [];
    Object.assign(window, { noted });
    document.addEventListener('securitypolicyviolation', (event) => {
      noted.push(`${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}`);
    });
  });
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(`dialog ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('popup', () => dialogs.push('popup'));
  return async () => {
    const { noted, pwned } = await page.evaluate(() => {
      const { noted, pwned } = window as unknown as { noted: string[]; pwned?: unknown };
      return { noted, pwned: pwned === undefined ? [] : ['a text ran'] };
    });
    return [...noted, ...pwned, ...dialogs];
  };
}

const look = (page: Page): Promise<Seen> =>
  page.evaluate(() => {
    const made = new Set<string>();
    const said: string[] = [];
    const walk = (root: ParentNode): void => {
      for (const element of root.querySelectorAll('*')) {
        const name = element.localName;
        made.add(name);
        for (const { name: attribute, value } of element.attributes) {
          // States of our own controls come and go with what is shown.
          if (!/^(aria-\w+|disabled|hidden)$/.test(attribute)) made.add(`${name} ${attribute}`);
          // Where it leads: into this page, to a file of this server, or elsewhere.
          if (/^(href|src|xlink:href|action)$/.test(attribute) && !value.startsWith('#'))
            made.add(
              `${name} ${attribute} to ${value.startsWith('data:') ? 'data:' : new URL(value, location.href).origin}`,
            );
          said.push(value);
        }
        if (element.shadowRoot) walk(element.shadowRoot);
      }
      said.push((root as Node & ParentNode).textContent ?? '');
    };
    walk(document);
    return { made: [...made].map((one) => one.replace(location.origin, 'here')), said: said.join('\n') };
  });

/** All that a person can look at: each penetration before its barrier, the table, what may be tried and said. */
async function walkThrough(report: string): Promise<{ seen: Seen; faults: string[] }> {
  let noted = async (): Promise<string[]> => ['nobody watched'];
  const { page, faults } = await openPage(await serve(report), {}, async (opened) => {
    noted = await watch(opened);
  });
  await page.locator('rr-building-section').waitFor();
  const made = new Set<string>();
  const said: string[] = [];
  const note = async (): Promise<void> => {
    const now = await look(page);
    for (const one of now.made) made.add(one);
    said.push(now.said);
  };
  const ids = await page.evaluate(() =>
    document.querySelector('ratedrun-viewer')!.report!.penetrations.map(({ tag }) => tag),
  );
  for (const id of ids) {
    await page.evaluate((tag) => document.querySelector('ratedrun-viewer')!.select(tag), id);
    await page.locator('rr-finding-sheet').getByText(id).first().waitFor({ state: 'attached' });
    await note();
  }
  for (const name of ['Try a change', 'Grant a concession', 'Add comment']) {
    const button = page.locator('rr-finding-sheet').getByRole('button', { name }).first();
    if ((await button.count()) === 0) continue;
    await button.click();
    await note();
    await page.keyboard.press('Escape');
  }
  await page.keyboard.press('t');
  await page.locator('rr-findings-table').waitFor();
  await note();
  faults.push(...(await noted()));
  await page.context().close();
  return { seen: { made: [...made], said: said.join('\n') }, faults };
}

describe.skipIf(chromium === undefined)('a report whose every text is hostile', () => {
  closeAll();

  it('is shown as text, under the policy, without a word to anywhere', { timeout: 600_000 }, async () => {
    const hostile = await walkThrough(reportOf(FOR_PAGES, 'hostile'));
    const harmless = await walkThrough(reportOf(HARMLESS.slice(0, 3), 'harmless'));
    expect(harmless.faults).toEqual([]);
    expect(hostile.faults).toEqual([]);
    const known = new Set(harmless.seen.made);
    expect(hostile.seen.made.filter((one) => !known.has(one))).toEqual([]);
    const marks = new Set([...hostile.seen.said.matchAll(/h\d\d[a-zA-Z]{3,12}/g)].map(([mark]) => mark));
    const missing = FOR_PAGES.filter(({ number }) => ![...marks].some((mark) => mark.startsWith(`h${number}`)));
    expect(missing.map(({ number }) => number)).toEqual([]);
    process.stdout.write(
      `Hostile texts in the viewer: ${FOR_PAGES.length}, ${marks.size} arrivals of text and place; 0 became more than text.\n`,
    );
  });
});
