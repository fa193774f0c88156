/** facts.json: what is judged again from it is what was judged from the models. */
import { describe, expect, it } from 'vitest';
import { once } from '../../src/collect.js';
import { FactsError, readFacts, writeFacts } from '../../src/review/facts-file.js';
import { FactsAgain, withWordsOf } from '../../src/review/judge-again.js';
import { AssumptionError, parseAssumption } from '../../src/rules/index.js';
import { demoFacts } from '../report/demo-report.js';

const demo = once(demoFacts);
const said = (text: string, changes: object): string => JSON.stringify({ ...JSON.parse(text), ...changes });
const again = once(async () => new FactsAgain((await demo()).facts));

describe('facts.json of the demo building', () => {
  it('says after a round through its text what it said before', async () => {
    const { facts, report } = await demo();
    expect(readFacts(new TextDecoder().decode(writeFacts(facts)), report)).toEqual(facts);
  });

  it('comes to the findings of the review where nothing is assumed', async () => {
    const { report } = await demo();
    const same = await (await again()).under([]);
    expect(same.checks).toEqual(report.checks);
    expect(same.summary).toEqual(report.summary);
    const bare = ({ concession: _, ...finding }: (typeof same.findings)[number]) => finding;
    expect(same.findings.map(bare)).toEqual(report.findings.map(bare));
    expect(same.assumed).toBeNull();
    expect(same.takeoff?.items.length).toBeGreaterThan(0);
    // Every concession of the brief stands beside the finding of its key.
    const ids = new Map(same.findings.map(({ key, id }) => [key, id]));
    for (const { key, state, finding } of same.concessions)
      expect(finding).toBe(state === 'inForce' || state === 'lapsed' ? ids.get(key) : null);
  });

  it.each([['siteTolerance=8'], ['systems.KX='], ['movement=30']])('tells what %s changes', async (text) => {
    const { report } = await demo();
    const trial = await (await again()).under([parseAssumption(text)]);
    const { outcomes, goes, comes } = trial.assumed!;
    expect(outcomes).toEqual({ before: report.summary.outcomes, after: trial.summary.outcomes });
    expect(goes.length + comes.length).toBeGreaterThan(0);
    const listed = (findings: typeof report.findings) => new Set(findings.map(({ key, outcome }) => key + outcome));
    const [was, is] = [listed(report.findings), listed(trial.findings)];
    for (const { key, outcome } of goes) expect([was.has(key + outcome), is.has(key + outcome)]).toEqual([true, false]);
    for (const { key, outcome } of comes)
      expect([was.has(key + outcome), is.has(key + outcome)]).toEqual([false, true]);
  });

  it('keeps remedies and what people said only where a trial touches nothing', async () => {
    const { report } = await demo();
    const topic = { guid: 'g', status: 'Open', assignedTo: null, comments: [] };
    const known = { ...report, findings: report.findings.map((one) => ({ ...one, remedy: `of ${one.key}`, topic })) };
    const trial = await (await again()).under([parseAssumption('siteTolerance=8')]);
    const merged = withWordsOf(known, trial);
    const before = new Map(report.findings.map((finding) => [finding.key, finding]));
    let [kept, changed] = [0, 0];
    for (const [i, finding] of merged.findings.entries()) {
      const old = before.get(finding.key);
      const isSame =
        old?.outcome === finding.outcome &&
        old.measured === finding.measured &&
        JSON.stringify(old.limit) === JSON.stringify(finding.limit);
      expect(finding.remedy).toBe(isSame ? `of ${finding.key}` : trial.findings[i]!.remedy);
      expect(finding.topic).toEqual(old ? topic : null);
      if (isSame) kept += 1;
      else changed += 1;
    }
    expect(Math.min(kept, changed)).toBeGreaterThan(0);
  });

  it('refuses what no brief has', async () => {
    await expect((await again()).under([{ name: 'systems.KX.__proto__', value: {} }])).rejects.toThrow(AssumptionError);
    await expect((await again()).under([{ name: 'nothing', value: 1 }])).rejects.toThrow(
      /there is no choice "nothing"/,
    );
  });

  it.each<[string, (text: string) => string, RegExp]>([
    ['cut off', (text) => text.slice(0, 1000), /^is not JSON, or cut off; check the models again\.$/],
    ['of another program', () => '{"format":"other"}', /^was not written by this version/],
    ['of another version', (text) => text.replace('"version":1', '"version":2'), /^was not written by this version/],
    [
      'of another review',
      (text) => text.replace(/"createdAt":"[^"]+"/, '"createdAt":"2020-01-01T00:00:00Z"'),
      /^belongs/,
    ],
    ['with a number for rules', (text) => said(text, { rules: 5 }), /^is damaged \(rules\); check the models again\.$/],
    ['without shipped rules', (text) => said(text, { shipped: undefined }), /^is damaged \(shipped\)/],
    [
      'with a brief of no text',
      (text) => said(text, { brief: { file: 'b', text: null } }),
      /^is damaged \(brief\.text\)/,
    ],
    [
      'without lists',
      (text) => said(text, { crossings: { penetrations: {} } }),
      /^is damaged \(crossings\.penetrations\)/,
    ],
  ])('%s is one clear line', async (_, damage, message) => {
    const { facts, report } = await demo();
    const read = () => readFacts(damage(new TextDecoder().decode(writeFacts(facts))), report);
    expect(read).toThrow(FactsError);
    expect(read).toThrow(message);
  });

  it('a document in it is refused as it would be by itself', async () => {
    const { facts } = await demo();
    const bomb = { file: 'bomb.yaml', text: 'a: &a [*a]' };
    for (const changes of [{ rules: [bomb] }, { shipped: [bomb] }, { brief: bomb }])
      expect(() => new FactsAgain({ ...facts, ...changes })).toThrow(/the alias \*a stands inside what it repeats/);
  });
});
