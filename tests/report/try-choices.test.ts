/** What is said of a choice that is tried out must be what a review says under a brief that makes it. */
import { describe, expect, it } from 'vitest';
import { assumedWords } from '../../src/report/assumed-words.js';
import { sumOutcomes } from '../../src/report/outcome-counts.js';
import { writeSummary } from '../../src/report/summary.js';
import { tryChoices } from '../../src/report/try-choices.js';
import { ASSUMPTION } from '../../src/report/words.js';
import { assumeChoices, judgeWithResults, parseAssumption } from '../../src/rules/index.js';
import { demonstrationBrief, protectedCrossings } from '../rules/protected.js';
import { rules } from '../shipped-rules.js';
import { aReport } from './factories.js';

const brief = assumeChoices(
  undefined,
  Object.entries(demonstrationBrief.choices).map(([name, value]) => ({ name, value })),
);
const under = { ...brief, demonstration: true };
const trial = { crossings: protectedCrossings, rules, models: [], brief: under };
const judged = (choices = under.choices) =>
  judgeWithResults(protectedCrossings, rules, { brief: { demonstration: true, choices }, models: [] });
const listedBy = ({ judgement }: ReturnType<typeof judged>) =>
  judgement.findings.map(({ key, outcome }) => `${key} ${outcome}`);

describe('choices that are tried out', () => {
  it.each([
    ['siteTolerance=25'],
    ['systems.SA.fixing=', 'systems.SA.testedSystem=demonstration-board'],
    ['systems.KX.dampers=allowed'],
    ['siteTolerance=25', 'systems='],
    ['systems.SA.integrity=240', 'flangeHeight=60'],
  ])('%s %s', (...texts) => {
    const assumptions = texts.filter((text) => text !== undefined).map(parseAssumption);
    const assumed = tryChoices(trial, assumptions);
    const [before, after] = [judged(), judged(assumeChoices(under, assumptions, rules).choices)];
    expect(assumed.outcomes).toEqual({
      before: sumOutcomes(before.judgement.checks),
      after: sumOutcomes(after.judgement.checks),
    });
    const [was, is] = [listedBy(before), listedBy(after)];
    const moved = (list: typeof assumed.goes) => list.map(({ key, outcome }) => `${key} ${outcome}`);
    expect(moved(assumed.goes)).toEqual(was.filter((one) => !is.includes(one)));
    expect(moved(assumed.comes)).toEqual(is.filter((one) => !was.includes(one)));
    const outcomesThere = new Map(after.results.map(({ key, outcome }) => [key, outcome]));
    for (const { key, other } of assumed.goes) expect(other).toBe(outcomesThere.get(key) ?? null);
    expect(assumed.goes.length + assumed.comes.length).toBeGreaterThan(0);
  });

  it('that are made already move nothing', () => {
    const { goes, comes, outcomes, penetrationOutcomes } = tryChoices(trial, [
      parseAssumption('systems.SA.fixing=pins'),
    ]);
    expect([goes, comes]).toEqual([[], []]);
    for (const { before, after } of [outcomes, penetrationOutcomes]) expect(after).toEqual(before);
  });

  it('come to the same from a judgement that was made before', () => {
    const assumptions = [parseAssumption('siteTolerance=25')];
    expect(tryChoices({ ...trial, judged: judged() }, assumptions)).toEqual(tryChoices(trial, assumptions));
  });

  it('stand in the report as what they are, and change nothing else of it', () => {
    const assumed = tryChoices(trial, [parseAssumption('siteTolerance=25')]);
    const [plain, report] = [aReport(), aReport({ assumed })];
    expect({ ...report, assumed: null }).toEqual(plain);
    expect(report.assumed).toMatchObject({
      note: ASSUMPTION,
      choices: [{ name: 'siteTolerance', before: null, value: 25 }],
    });
    const [summary, bare] = [report, plain].map((one) => writeSummary(one, { files: [], width: 2000 }));
    expect(summary).toContain(ASSUMPTION);
    expect(summary).toContain('If siteTolerance is 25 (in the brief: left out):');
    for (const line of bare!.split('\n')) expect(summary).toContain(line);
    expect(assumedWords(assumed).comes[0]).toMatch(/can't tell then, passed now: .* the site tolerance is 25 mm/);
  });
});
