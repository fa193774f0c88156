/** The oracle notices planted false passes: the program's review of a building is held against a text that says less. */
import { describe, expect, it } from 'vitest';
import { AIMED } from './aimed.js';
import { type Building, cases, parts } from './buildings.js';
import { type Verdict, verdictOf } from './oracle.js';
import { sidesAcross } from './reread.js';
import { before } from './run-one.js';
import { StepText, withAttribute } from './step-text.js';

type Change = (line: string) => string;

const stepsOf = ({ files }: Building, change: Change): StepText[] =>
  files.map(({ text }) => new StepText(text.split('\n').map(change).join('\n')));

/** What the oracle says of the review of the unharmed building, were this what its files say. */
async function verdict(building: Building, change: Change): Promise<Verdict> {
  const review = await before(building);
  return verdictOf(stepsOf(building, change), review, review);
}

const onLines =
  (pattern: RegExp, change: Change): Change =>
  (line) =>
    pattern.test(line) ? change(line) : line;
const longer = (by: number) => (side: string) => `${Number(side) * by}`;

const PLANTED: readonly (readonly [what: string, change: Change, says: RegExp])[] = [
  ['a lower rating', (line) => line.replace('-/60/60', '-/30/30'), /^integrity.* its barrier states -\/30\/30/],
  ['no rating', onLines(/IFCRELDEFINESBYPROPERTIES/, () => ''), /its barrier states no rating/],
  ['no opening', onLines(/IFCRELVOIDSELEMENT/, () => ''), /the text has no opening there/],
  ['no material', onLines(/IFCRELASSOCIATESMATERIAL/, () => ''), /its barrier has no material/],
  [
    'ducts and openings of other sizes',
    onLines(/IFCRECTANGLEPROFILEDEF/, (line) => withAttribute(line, 4, longer(1.5))),
    /^duct-height.* the text says/,
  ],
  [
    'openings elsewhere',
    onLines(/IFCRECTANGLEPROFILEDEF.*,(4[0-9]0)\.,(3[0-9]0)\.\);/, (line) => withAttribute(line, 3, longer(1.1))),
    /^gap-within-tested-range.* measured .* the text says/,
  ],
  [
    'thin walls',
    onLines(/IFCRECTANGLEPROFILEDEF.*,\d{4,}\./, (line) => withAttribute(line, 4, longer(0.3))),
    /^barrier-thickness-tested.* are drawn/,
  ],
  [
    'dampers that hold back nothing',
    (line) => line.replace(/\.FIRE(SMOKE)?DAMPER\./, '.CONTROLDAMPER.'),
    /its damper is CONTROLDAMPER/,
  ],
  ['no bodies', onLines(/=IFCWALL\(/, (line) => withAttribute(line, 6, () => '$')), /IFCWALL has no body/],
];

describe('the oracle', () => {
  it('finds nothing wrong with the parts of the demo building as they are', async () => {
    for (const building of parts()) {
      const { falsePasses, passes, reread } = await verdict(building, (line) => line);
      expect(falsePasses, building.name).toEqual([]);
      expect(reread, building.name).toBeGreaterThan(passes / 10);
    }
  });

  it.each(PLANTED)('notices passes with %s', async (_, change, says) => {
    const verdicts = await Promise.all(parts().map((building) => verdict(building, change)));
    expect(verdicts.flatMap(({ falsePasses }) => falsePasses)).toContainEqual(expect.stringMatching(says));
  });

  it.each(AIMED)('notices a review that does not see: $what', async ({ targets, taken }) => {
    const noticed: string[] = [];
    for (const building of parts()) {
      const [review, steps] = [await before(building), stepsOf(building, (line) => line)];
      for (const { from } of steps.flatMap(targets))
        noticed.push(...verdictOf(steps, review, review, { what: taken, from }).falsePasses);
    }
    expect(noticed).toContainEqual(expect.stringContaining(`without its ${taken}`));
  });

  it('says nothing of lines that are damaged, and still notices one that is gone', async () => {
    const [netStore] = parts();
    const relations = /IFCRELVOIDSELEMENT|IFCRELASSOCIATESMATERIAL|IFCRELDEFINESBYPROPERTIES/;
    const whole = await verdict(netStore!, (line) => line);
    const damaged = await verdict(
      netStore!,
      onLines(relations, (line) => line.replace(/\);/, ')a')),
    );
    expect(damaged.falsePasses).toEqual([]);
    expect(damaged.reread).toBeLessThan(whole.reread);
    expect(
      (
        await verdict(
          netStore!,
          onLines(relations, () => ''),
        )
      ).falsePasses,
    ).not.toEqual([]);
  });

  it('sees what lies across a barrier by the sides that are across it', () => {
    const at = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const;
    const panel = { at, width: 900, height: 600, depth: 20 };
    expect(sidesAcross(panel, [0, 1, 0])).toEqual([900, 20]);
    expect(sidesAcross(panel, [1, 0, 0])).toEqual([600, 20]);
    expect(sidesAcross(panel, [0, 0, 1])).toEqual([900, 600]);
  });
});

describe('an aimed mutation', () => {
  it.each(AIMED)(
    '$what: changes lines of the parts, and only where there is something to take',
    ({ targets, change }) => {
      const bitten = [...parts(), ...cases()].flatMap(({ files }) =>
        files.flatMap(({ text }) => {
          const lines = text.split('\n');
          return targets(new StepText(text)).map(({ line }) => change(lines[line]!) !== lines[line]);
        }),
      );
      expect(bitten.filter(Boolean).length).toBeGreaterThan(5);
    },
  );

  it('takes no body from a type, nor from a product that has none', () => {
    const none = [
      "#1=IFCROOFTYPE('0GE$iSXKL8jAEeHi$mszPq',#5,'house - roof',$,$,$,#8,'902509','gable_roof',.GABLE_ROOF.);",
      "#2=IFCWALL('2Q0knfXEbVWjsN2zDMZser',#5,'Wall',$,$,#60,$,$,.NOTDEFINED.);",
      "#3=IFCWALL('34DS4UNq$SJqX0KebW4p9O',#5,'Wall',$,$,#60,#62,$,.NOTDEFINED.);",
    ].join('\n');
    const aim = AIMED.find(({ what }) => what === 'body removed')!;
    expect(aim.targets(new StepText(none)).map(({ line }) => line)).toEqual([2]);
  });

  it('takes one attribute and leaves the others as they are', () => {
    const line = "#7=IFCWALL('a''b',#5,(#1,(2.,3.)),IFCLABEL('x,(y)'),$,.T.);";
    expect(withAttribute(line, 2, () => '$')).toBe("#7=IFCWALL('a''b',#5,$,IFCLABEL('x,(y)'),$,.T.);");
    expect(withAttribute(line, 3, (before) => before)).toBe(line);
    expect(withAttribute(line, 9, () => '$')).toBe(line);
    expect(withAttribute('no instance', 0, () => '$')).toBe('no instance');
  });
});
