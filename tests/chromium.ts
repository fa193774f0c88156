/** The Chromium that PDFs are printed with, where the machine has one; `.ci/run` installs it. */
import { ChromiumError, findChromium } from '../src/platform/chromium.js';

function found(): string | undefined {
  try {
    return findChromium();
  } catch (error) {
    if (!(error instanceof ChromiumError)) throw error;
    process.stdout.write('Tests that print PDFs are skipped: there is no Chromium.\n');
    return undefined;
  }
}

export const chromium = found();
