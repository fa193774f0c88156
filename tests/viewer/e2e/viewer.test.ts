/** The viewer as people use it, in headless Chromium: each test starts from the page, and no page may fault. */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readReport } from '../../../src/report/read-report.js';
import type {} from '../../../viewer/host-api.js';
import { chromium } from '../../chromium.js';
import { closeAll, demoFolder, type Look, openPage, picture, seriousViolations, serve } from './browser.js';

const SLOW = { timeout: 180_000 };

const review = () => readReport(readFileSync(`${demoFolder().report}/report.json`, 'utf8'));
const state = <T>(page: Page, of: string): Promise<T> =>
  page.evaluate((path) => {
    const { store } = document.querySelector('ratedrun-viewer') as unknown as { store: { state: unknown } };
    return path.split('.').reduce<unknown>((at, key) => (at as Record<string, unknown>)?.[key], store.state) as T;
  }, of);

/** What an element of ours says, without those inside it. */
const textOf = async (where: Locator): Promise<string> =>
  ((await where.evaluate((one) => (one.shadowRoot ?? one).textContent)) ?? '').replace(/\s+/g, ' ').trim();

async function opened(look: Look = {}, hash = ''): Promise<{ page: Page; faults: string[] }> {
  const { page, faults } = await openPage(`${await serve(demoFolder().report)}${hash}`, look);
  await page.locator('rr-building-section').waitFor();
  return { page, faults };
}

async function modelBuilt(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const viewer = document.querySelector('ratedrun-viewer') as unknown as { renderRoot: ShadowRoot };
    const model = viewer.renderRoot.querySelector('rr-model') as unknown as { builtIn: number | null };
    return model.builtIn !== null;
  });
}

describe.skipIf(chromium === undefined)('the viewer', () => {
  closeAll();

  it(
    'shows a served report in every theme and size, with nothing serious against its accessibility',
    SLOW,
    async () => {
      for (const [name, look] of [
        ['desk-light', {}],
        ['desk-dark', { theme: 'dark' }],
        ['tablet-light', { width: 768, height: 1024, touch: true }],
        ['tablet-dark', { width: 768, height: 1024, touch: true, theme: 'dark' }],
      ] as const) {
        const { page, faults } = await opened(look);
        const words = await textOf(page.locator('rr-building-section'));
        for (const said of ['Roof', 'Second floor', 'Ground floor', '28 failed']) expect(words, name).toContain(said);
        expect(await textOf(page.locator('rr-status-line'))).toContain('DEMONSTRATION DATA');
        if (!name.startsWith('tablet')) await modelBuilt(page);
        await picture(page, name);
        expect(await seriousViolations(page), name).toEqual([]);
        expect(faults, name).toEqual([]);
        await page.context().close();
      }
    },
  );

  it('selects anywhere and moves every region', SLOW, async () => {
    const { page, faults } = await opened();
    await modelBuilt(page);
    const p = review().penetrations.find(({ outcome, barrier }) => outcome === 'failed' && barrier.kind === 'wall')!;
    await page.evaluate((tag) => document.querySelector('ratedrun-viewer')!.select(tag), p.tag);
    await expect.poll(() => textOf(page.locator('rr-finding-sheet'))).toContain(p.tag);
    await expect.poll(() => textOf(page.locator('rr-model'))).toContain(`side A of ${p.barrier.name}`);
    await expect.poll(() => new URL(page.url()).hash).toContain(p.tag);
    await picture(page, 'selected');

    await page.locator('rr-barrier-faces [data-id]:not([aria-current="true"]) .label').first().click();
    await expect.poll(() => state<string>(page, 'selection.penetration')).not.toBe(p.id);
    await page
      .getByRole('button', { name: /^Other side of/ })
      .first()
      .focus();
    await page.locator('rr-model').getByRole('button', { name: 'From above' }).click();
    await expect.poll(() => state<string>(page, 'view')).toBe('above');
    await picture(page, 'from-above');

    // Still: nothing is drawn when nothing changes.
    const frames = () =>
      page.locator('rr-model').evaluate((one) => (one as unknown as { framesDrawn: number }).framesDrawn);
    await page.waitForTimeout(500);
    const before = await frames();
    await page.waitForTimeout(1000);
    expect(await frames()).toBe(before);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('is driven by keys, with the focus always somewhere that is seen', SLOW, async () => {
    const { page, faults } = await opened();
    const selected = () => state<string>(page, 'selection.penetration');
    const first = await selected();
    const address = page.url();
    await page.keyboard.press('ArrowDown');
    const second = await selected();
    expect(second).not.toBe(first);
    await expect.poll(() => page.url()).not.toBe(address); // it is written at most four times a second
    await page.goBack();
    await expect.poll(selected).toBe(first);
    await page.keyboard.press('PageDown');
    expect(await selected()).not.toBe(first);
    await page.keyboard.press('Enter');
    const focus = () =>
      page.evaluate(() => {
        let at = document.activeElement;
        while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
        return at?.id ?? '';
      });
    await expect.poll(focus).toBe('heading');
    await page.keyboard.press('Escape');
    await page.keyboard.press('t');
    await page.locator('rr-findings-table').waitFor();
    await page.keyboard.press('t');
    await page.keyboard.press('?');
    await page.getByRole('dialog').waitFor();
    await picture(page, 'keys');
    expect(await seriousViolations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('lists, sorts, searches and filters all findings, and keeps that in the address', SLOW, async () => {
    const { page, faults } = await opened({}, '#region=table');
    await page.keyboard.press('t');
    const table = page.locator('rr-findings-table');
    await table.waitFor();
    const report = review();
    const rows = async () => Number(await table.locator('[aria-rowcount]').getAttribute('aria-rowcount'));
    expect(await rows()).toBeGreaterThan(report.findings.length);
    await table.locator('input').first().fill('gap');
    await expect.poll(() => state<string>(page, 'filter.text')).toBe('gap');
    await page.evaluate(() => {
      document.querySelector('ratedrun-viewer')!.filter = { text: '', outcomes: ['failed'] };
    });
    await expect.poll(() => new URL(page.url()).hash).toContain('outcome=failed');
    const failed = report.findings.filter(({ outcome }) => outcome === 'failed').length;
    // The head counts as a row.
    await expect.poll(rows).toBe(failed + 1);
    await table.locator('[role=grid]').focus();
    await page.keyboard.press('End');
    await picture(page, 'table');
    expect(await seriousViolations(page)).toEqual([]);
    const address = page.url();
    await page.reload();
    await table.waitFor();
    expect(page.url()).toBe(address);
    await expect.poll(rows).toBe(failed + 1);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('tries a change, says what comes of it, and writes the brief', SLOW, async () => {
    const { page, faults } = await opened();
    await page.evaluate(() => document.querySelector('ratedrun-viewer')!.select('F-0049'));
    await expect.poll(() => state(page, 'choosable')).toBeTruthy();
    await page.locator('rr-finding-sheet').getByRole('button', { name: 'Try a change' }).click();
    const form = page.locator('rr-try-form');
    await form.locator('select').first().selectOption({ label: 'Another choice, by its name' });
    await picture(page, 'try-form');
    expect(await seriousViolations(page)).toEqual([]);
    const tryIt = async (name: string): Promise<void> => {
      await form.getByLabel('Name').fill(name);
      await form.getByLabel('Value').fill('15');
      await form.getByRole('button', { name: 'Try it' }).click();
    };
    await tryIt('siteTolerence');
    await expect.poll(() => textOf(form)).toContain('perhaps you meant "siteTolerance"');
    await tryIt('siteTolerance');
    const bar = page.locator('rr-trial-bar');
    await expect.poll(() => textOf(bar)).toContain('15');
    await expect.poll(() => textOf(bar)).toMatch(/→/);
    await modelBuilt(page);
    await page.waitForTimeout(500);
    await picture(page, 'trial');
    expect(await seriousViolations(page)).toEqual([]);
    await bar.getByRole('button', { name: /brief/i }).click();
    await expect.poll(() => readFileSync(`${demoFolder().report}/brief.yaml`, 'utf8')).toMatch(/siteTolerance: 15/);
    await bar.getByRole('button', { name: 'Back to the review' }).click();
    await expect.poll(() => state(page, 'trial')).toBe(null);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('takes a concession and a comment, saves the brief, and sends topics out and back', SLOW, async () => {
    const { page, faults } = await opened();
    const finding = review().findings.find(
      ({ outcome, subject }) => outcome === 'failed' && subject.type === 'penetration',
    )!;
    await page.evaluate((id) => document.querySelector('ratedrun-viewer')!.select(id), finding.key);
    const sheet = page.locator('rr-finding-sheet');
    await sheet.getByRole('button', { name: 'Grant a concession' }).click();
    const form = page.locator('rr-concession-form');
    await form
      .getByRole('button', { name: /concession|grant/i })
      .last()
      .click();
    expect(await form.locator('[aria-invalid="true"]').count()).toBeGreaterThanOrEqual(4);
    for (const [name, value] of [
      ['reason', 'Filled on site and inspected'],
      ['grantedBy', 'A. Person'],
      ['role', 'building surveyor'],
      ['reference', 'BS-14'],
      ['date', '2026-11-01'],
    ] as const)
      await form.locator(`[name=${name}]`).fill(value);
    await picture(page, 'concession-form');
    expect(await seriousViolations(page)).toEqual([]);
    await form
      .getByRole('button', { name: /concession|grant/i })
      .last()
      .click();
    await sheet.getByRole('button', { name: 'Add comment' }).click();
    const comment = page.locator('rr-comment-form');
    await comment.locator('[name=text]').fill('To be <b>settled</b> on Tuesday');
    await comment.locator('[name=author]').fill('M. Example');
    await comment.locator('button.main').click();
    const unsaved = page.locator('rr-unsaved-bar');
    await expect.poll(() => textOf(unsaved)).toContain('1 concession and 1 comment');
    await picture(page, 'unsaved');

    const sending = page.waitForEvent('download');
    await unsaved.getByRole('button', { name: /BCF/ }).click();
    const file = await (await sending).path();
    await unsaved.getByRole('button', { name: /^Save/ }).click();
    await expect
      .poll(() => readFileSync(`${demoFolder().report}/brief.yaml`, 'utf8'))
      .toContain('Filled on site and inspected');
    expect(readFileSync(`${demoFolder().report}/brief.yaml`, 'utf8')).toContain('To be <b>settled</b> on Tuesday');

    const back = readFileSync(file);
    await page.evaluate(
      async (bytes) => {
        const sent = new File([new Uint8Array(bytes)], 'findings.bcf');
        await document.querySelector('ratedrun-viewer')!.openFiles([sent]);
      },
      [...back],
    );
    const comments = await page.evaluate((key) => {
      const { report } = document.querySelector('ratedrun-viewer')!;
      const one = report!.findings.find((f) => f.key === key)!;
      return [...one.comments, ...(one.topic?.comments ?? [])].filter(({ text }) => text.includes('Tuesday')).length;
    }, finding.key);
    expect(comments).toBe(1);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('checks models in the page as the command line does', SLOW, async () => {
    const { models, brief } = demoFolder();
    const { page, faults } = await openPage(await serve());
    await page.getByText('Nothing leaves this computer').waitFor();
    await picture(page, 'empty');
    expect(await seriousViolations(page)).toEqual([]);
    const input = page.locator('rr-opening-page input');
    await input.setInputFiles([...models, brief]);
    await page.getByRole('button', { name: 'Stop' }).waitFor();
    await page.waitForTimeout(1500);
    await picture(page, 'loading');
    expect(await seriousViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Stop' }).click();
    await expect.poll(() => state<string>(page, 'phase.kind')).toBe('empty');

    await input.setInputFiles([...models, brief]);
    await page.locator('rr-building-section').waitFor({ timeout: 120_000 });
    const made = await page.evaluate(() => document.querySelector('ratedrun-viewer')!.report);
    const same = ({ createdAt: _, brief: __, revision: ___, issuedTags: ____, ...rest }: ReturnType<typeof review>) =>
      rest;
    expect(same(made!)).toEqual(same(review()));
    // One request was refused: there is no report to show. All else was quiet.
    expect(faults.filter((fault) => !fault.includes('404'))).toEqual([]);
    await page.context().close();
  });

  it('says in one line what is wrong with a file that is dropped', SLOW, async () => {
    const { page } = await openPage(await serve());
    // Dropped, as files are.
    await page.locator('ratedrun-viewer').evaluate((viewer) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(['ISO-10303-21;\nHEADER;'], 'broken.ifc'));
      const bubbles = { bubbles: true, composed: true, cancelable: true, dataTransfer };
      for (const name of ['dragenter', 'dragover', 'drop']) viewer.dispatchEvent(new DragEvent(name, bubbles));
    });
    await page
      .getByText(/broken\.ifc/)
      .first()
      .waitFor();
    await picture(page, 'failed');
    expect(await seriousViolations(page)).toEqual([]);
    await page.context().close();
  });

  it('shows drawings where there is no WebGL', SLOW, async () => {
    const { page } = await openPage('about:blank');
    await page.addInitScript(() => {
      HTMLCanvasElement.prototype.getContext = () => null;
    });
    await page.goto(await serve(demoFolder().report));
    await expect.poll(() => page.locator('rr-model svg[role=img]').count()).toBe(1);
    await picture(page, 'no-webgl');
    expect(await seriousViolations(page)).toEqual([]);
    await page.context().close();
  });

  it('can be embedded: the host follows and leads, and its address is its own', SLOW, async () => {
    const { page, faults } = await openPage(`${await serve(demoFolder().report)}host.html`, { width: 1440 });
    const tag = page.locator('#worst button').nth(2);
    await tag.waitFor();
    const address = page.url();
    await tag.click();
    await expect.poll(() => textOf(page.locator('#selected'))).toContain(await textOf(tag));
    expect(await page.locator('#elements li').count()).toBeGreaterThan(1);
    await page.locator('#failed').click();
    await expect.poll(() => state<string[]>(page, 'filter.outcomes')).toEqual(['failed']);
    expect(page.url()).toBe(address);
    await picture(page, 'host');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('prints the sheet alone, on white, with stamp and cautions', SLOW, async () => {
    const { page } = await opened({ theme: 'dark' });
    await page.emulateMedia({ media: 'print' });
    for (const region of ['rr-building-section', 'rr-barrier-faces', 'rr-model', 'rr-status-line'])
      expect(await page.locator(region).isVisible(), region).toBe(false);
    const sheet = page.locator('rr-finding-sheet');
    expect(await sheet.isVisible()).toBe(true);
    expect(await textOf(sheet)).toContain('DEMONSTRATION DATA');
    const ground = await page.evaluate(
      () => getComputedStyle(document.querySelector('ratedrun-viewer')!).backgroundColor,
    );
    expect(['rgb(255, 255, 255)', 'rgba(0, 0, 0, 0)']).toContain(ground);
    const bytes = await page.pdf({ format: 'A4', landscape: true, printBackground: true });
    expect(bytes.length).toBeGreaterThan(10_000);
    await page.context().close();
  });
});
