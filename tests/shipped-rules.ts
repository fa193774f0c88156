/** The shipped rules and the brief of the demo building: loaded once for all tests of a worker. */
import { readdirSync, readFileSync } from 'node:fs';
import { loadBrief, loadRules } from '../src/rules/index.js';

const text = (file: string) => ({ file, text: readFileSync(file, 'utf8') });

export const shippedTexts = readdirSync('rules')
  .filter((file) => file.endsWith('.yaml'))
  .sort()
  .map((file) => text(`rules/${file}`));

export const rules = loadRules(shippedTexts);

export const demoBriefText = text('fixtures/demo/brief.yaml');
export const demoBrief = loadBrief(demoBriefText, rules);
