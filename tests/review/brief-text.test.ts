/** Decisions written into the text of a brief: it says what was tried, and all else of it stays. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeHtml } from '../../src/report/html.js';
import { openingRequests } from '../../src/report/opening-requests.js';
import { type BriefEntries, writeBriefText } from '../../src/review/brief-text.js';
import { FactsAgain } from '../../src/review/judge-again.js';
import {
  AssumptionError,
  assumeChoices,
  loadBrief,
  newBrief,
  parseAssumption,
  RuleDocumentError,
} from '../../src/rules/index.js';
import { demoFacts } from '../report/demo-report.js';
import { demoBrief, demoBriefText, rules } from '../shipped-rules.js';

const DAY = '2026-11-26';
const KEY = '0123456789012345'; // all digits: without quotes it would be a number
const NOTHING: BriefEntries = { assumptions: [], concessions: [], comments: [] };
const concession = (changes: object = {}) => ({
  ...{ key: KEY, reason: 'filled and inspected', grantedBy: 'A. Person', role: 'building surveyor' },
  ...{ reference: 'BS-1', date: '2026-03-02', measured: 70, limit: { atLeast: 10, atMost: 50 } },
  ...changes,
});
const comment = (changes: object = {}) => ({
  ...{ key: KEY, text: 'asked the fabricator', author: 'B. Person', date: '2026-03-02T10:00:00Z' },
  ...changes,
});
const write = (entries: Partial<BriefEntries>, brief: { file: string; text: string } | null = demoBriefText) =>
  writeBriefText({ brief, entries: { ...NOTHING, ...entries }, day: DAY, rules });
const load = (text: string) => loadBrief({ file: 'brief.yaml', text }, rules);
const lines = (text: string): string[] => text.split('\n').map((line) => line.trim().replace(/,$/, ''));

describe('the text of a brief', () => {
  it.each([
    ['siteTolerance=8'],
    ['room.working=60', 'room.hands='],
    ['systems.KX.fixing=welded-pins'],
    ['systems.KX='],
    ['headMovement=20', 'testedSystems=[demonstration-board]'],
    ['changes.ductBy=0', 'supports.rod=M12'],
  ])('loads to what was tried: %s %s', (...texts) => {
    const assumptions = texts.flatMap((text) => (text === undefined ? [] : parseAssumption(text)));
    const known = (): boolean => {
      try {
        assumeChoices(demoBrief, assumptions, rules);
        return true;
      } catch {
        return false;
      }
    };
    if (!known()) return expect(() => write({ assumptions })).toThrow(AssumptionError);
    const text = write({ assumptions });
    expect(load(text)).toEqual(assumeChoices(demoBrief, assumptions, rules));
    expect(text).toContain(`tried in the viewer, ${DAY}`);
    // Comments and lines that were not touched stand in their order.
    const before = lines(demoBriefText.text);
    const after = lines(text);
    const comments = (all: readonly string[]) => all.filter((line) => line.startsWith('#') && !line.includes(DAY));
    expect(comments(after)).toEqual(comments(before));
    expect(after.filter((line) => !before.includes(line)).length).toBeLessThan(12);
    // An entry of a list that is taken out can't be taken out again.
    if (texts[0] !== 'systems.KX=') expect(write({ assumptions }, { file: 'b.yaml', text })).toBe(text);
    return undefined;
  });

  it('comes to the outcomes of the trial when it is judged', async () => {
    const { facts } = await demoFacts();
    const assumptions = ['siteTolerance=8', 'systems.KX='].map(parseAssumption);
    const trial = await new FactsAgain(facts).under(assumptions);
    const text = write({ assumptions });
    const judged = await new FactsAgain({ ...facts, brief: { file: 'brief.yaml', text } }).under([]);
    expect({ ...judged, brief: null, assumed: null }).toEqual({ ...trial, brief: null, assumed: null });
  });

  it.each([
    ['the demo', demoBriefText.text],
    ['the template', newBrief()],
    ['one in flow', 'kind: project-brief\nid: x\nversion: "1"\nchoices: { concessions: [], room: { hands: 300 } }\n'],
    [
      'one with an alias',
      'kind: project-brief\nid: x\nversion: "1"\nchoices:\n  testedSystems: &a []\n  testedDampers: *a\n',
    ],
    ['one with Windows lines', newBrief().replaceAll('\n', '\r\n')],
  ])('%s takes concessions and comments, each once', (_, text) => {
    const entries = { concessions: [concession()], comments: [comment(), comment({ text: 'he will' })] };
    const written = write(entries, { file: 'b.yaml', text });
    const { concessions, comments } = load(written).choices;
    expect(concessions.slice(-1)).toEqual([concession()]);
    expect(comments).toEqual(entries.comments);
    expect(write(entries, { file: 'b.yaml', text: written })).toBe(written);
    const changed = write({ concessions: [concession({ reason: 'sealed' })] }, { file: 'b.yaml', text: written });
    expect(load(changed).choices.concessions.filter(({ key }) => key === KEY)).toEqual([
      concession({ reason: 'sealed' }),
    ]);
  });

  it('is begun where there is none, and says what was not at hand', () => {
    expect(load(write({ comments: [comment()] }, null)).choices.comments).toEqual([comment()]);
    const missing = writeBriefText({ brief: null, missing: 'quay.yaml\nkind: x', entries: NOTHING, day: DAY });
    expect(missing.split('\n')[0]).toBe('# quay.yaml kind: x was not at hand: take these entries over into it.');
  });

  it('takes any text as data', () => {
    const texts = fc.oneof(
      fc.string({ minLength: 1, maxLength: 200, unit: 'grapheme' }),
      fc.constantFrom(
        '"]}\n---\n# - key: x',
        '*a',
        '&a b',
        '!!js/function x',
        '? : -',
        '- x',
        '|\n x',
        "it's: #1",
        '%YAML 9',
        '__proto__',
      ),
    );
    fc.assert(
      fc.property(texts, texts, (text, author) => {
        fc.pre(
          text.trim() !== '' &&
            author.trim().length > 0 &&
            author.length <= 100 &&
            !/[\p{Cc}\p{Cs}]/u.test(text + author),
        );
        const written = write({ comments: [comment({ text: text.trim(), author: author.trim() })] });
        const { comments } = load(written).choices;
        expect(comments).toEqual([comment({ text: text.trim(), author: author.trim() })]);
      }),
      { numRuns: 60 },
    );
  });

  it.each<[string, Partial<BriefEntries>, new (...args: never[]) => Error, RegExp]>([
    ['a prototype key', { assumptions: [{ name: 'room.__proto__', value: {} }] }, AssumptionError, /__proto__/],
    [
      'a constructor',
      { assumptions: [{ name: 'constructor.x', value: 1 }] },
      AssumptionError,
      /no choice "constructor"/,
    ],
    ['no choice', { assumptions: [{ name: 'nothing', value: 1 }] }, AssumptionError, /no choice "nothing"/],
    ['an empty comment', { comments: [comment({ text: ' ' })] }, RuleDocumentError, /say something/],
    ['a key that is none', { comments: [comment({ key: 'x' })] }, RuleDocumentError, /key of a finding/],
    ['a date that is none', { concessions: [concession({ date: 'soon' })] }, RuleDocumentError, /date/i],
  ])('%s is refused before anything is handed out', (_, entries, kind, message) => {
    const writing = () => write(entries);
    expect(writing).toThrow(kind);
    expect(writing).toThrow(message);
  });
});

describe('comments of a brief', () => {
  let report: Awaited<ReturnType<FactsAgain['under']>>;
  let key = '';
  beforeAll(async () => {
    const { facts, report: before } = await demoFacts();
    key = before.findings[0]!.key;
    const text = write({ comments: [comment({ key }), comment()] });
    report = await new FactsAgain({ ...facts, brief: { file: 'brief.yaml', text } }).under([]);
  });

  it('stand beside their finding, and those of no finding in the list', () => {
    const [first] = report.findings;
    expect(first!.comments).toEqual([
      { date: '2026-03-02T10:00:00Z', author: 'B. Person', text: 'asked the fabricator' },
    ]);
    expect(report.comments.map((one) => [one.key, one.finding])).toEqual([
      [key, first!.id],
      [KEY, null],
    ]);
    const page = new TextDecoder().decode(writeHtml(report, { fonts: [], openings: openingRequests(report) }));
    expect(page.match(/Comment by B\. Person, 2026-03-02: asked the fabricator/g)).toHaveLength(2);
  });

  it('are refused twice', () => {
    const twice = `kind: project-brief\nid: x\nversion: "1"\nchoices:\n  comments:\n${`    - { key: "${KEY}", text: a, author: b, date: 2026-03-02 }\n`.repeat(2)}`;
    expect(() => load(twice)).toThrow(/listed twice/);
  });
});
