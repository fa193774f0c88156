/** What is counted along runs, worked by hand: a duct of 600 x 400 in layers of 38 mm, from rolls 7320 x 610 and x 1220. */
import { describe, expect, it } from 'vitest';
import type {
  Crossings,
  Judgement,
  PartMeasures,
  StrategyRow,
  Stretch,
  StretchPart,
  SupportRow,
} from '../../src/model.js';
import { alongRuns } from '../../src/quantify/along-runs.js';
import { quantifyChoices } from '../../src/quantify/choices.js';
import type { Draft } from '../../src/quantify/draft.js';
import { clearance, run, stretch, stretchPart } from '../model-factories.js';
import { aStrategyRow, aSupportRow } from '../report/factories.js';
import { rules } from '../shipped-rules.js';

const measures = (changes: Partial<PartMeasures> = {}): PartMeasures => ({
  section: { shape: 'rectangular', width: 600, height: 400, diameter: null },
  ...{ way: 'level', ends: [], surfaceM2: null, insulation: null, inBarrier: 0, unknown: null },
  ...changes,
});
const BLANKET = { kind: 'blanket', evidence: 'a drawing', layers: 2, integrity: 120, insulation: 120 } as const;
const part = (changes: Partial<StretchPart> = {}): StretchPart =>
  stretchPart({ storey: 'S1', measures: measures(), ...changes });
const stretchOf = (parts: readonly StretchPart[], more: Partial<Stretch> = {}): Stretch =>
  stretch({ ends: [], parts, ...more });

interface Given {
  readonly stretches: readonly Stretch[];
  readonly row?: Partial<StrategyRow>;
  readonly detail?: string;
  readonly system?: string;
  readonly judgement?: Partial<Judgement>;
  readonly crossings?: Partial<Crossings>;
  readonly takeoff?: Parameters<typeof quantifyChoices>[0];
  readonly entries?: Parameters<typeof alongRuns>[0]['entries'];
}

function counting({ stretches, row, detail, system = 'demonstration-blanket', takeoff, entries, ...more }: Given) {
  const chosen = { system, detail: detail ?? 'framed-wall', fixing: 'pins' };
  return alongRuns({
    crossings: { runs: [run({ stretches })], access: [], supports: undefined, ...more.crossings },
    judgement: {
      tested: [{ penetration: 'P-0001', chosen, feasible: [], nearest: [] }] as unknown as Judgement['tested'],
      strategy: [
        {
          ...{ ...aStrategyRow('SA'), lapses: [], stretches: stretches.map(({ id }) => id) },
          ...{ testedSystem: { id: system, fixing: 'pins' }, ...row },
        },
      ],
      ...{ supports: [], proposedPanels: [], ...more.judgement },
    },
    systems: rules.systems,
    choices: quantifyChoices(takeoff),
    entries,
  });
}

const of = (kind: string, { drafts }: { readonly drafts: readonly Draft[] }) =>
  drafts.filter(({ material }) => material.kind === kind);
const cut = ({ pieces, length, width }: Draft) => [pieces, length, width];

describe('blanket round a straight piece', () => {
  const at = { ends: [{ penetration: 'P-0001', part: 0 }] };
  const wrapped = counting({ stretches: [stretchOf([part({ measures: measures({ inBarrier: 100 }) })], at)] });

  it('goes on by layers, up to the face of the barrier, each on the one below', () => {
    // 3000 less 100 in the barrier = 2900. Round layer 1: 2000 + 8 · 38 = 2304, layer 2: 2608; each 100 longer as it is cut.
    // Rolls of 610 take ⌈2800 / 510⌉ · 610 = 3660, of 1220 ⌈2800 / 1120⌉ · 1220 = 3660: the wider. Last: 2900 − 2 · 1120 = 660.
    expect(of('blanket', wrapped).map(cut)).toEqual([
      [2, 2404, 1220],
      [1, 2404, 660],
      [2, 2708, 1220],
      [1, 2708, 660],
    ]);
    // 2 · 2.404 · 1.220 = 5.86576 m², by 0.038 · 128 = 4.864 kg/m² 28.531 kg.
    expect(of('blanket', wrapped)[0]).toMatchObject({
      areaM2: 5.8658,
      massKg: 28.531,
      lengthM: 4.808,
      formula: 'strip',
    });
    // What layer 1 covers: 2.304 · 2.9 = 6.68 m².
    expect(of('blanket', wrapped)[0]!.what).toMatch(/^layer 1, which covers 6.68 m²/);
    expect(of('blanket', wrapped)[0]!.place).toEqual({ penetration: null, run: 'R-001', storey: 'S1', system: 'SA' });
  });

  it('is taped on two joints round each layer and along its seam', () => {
    // 2 · 2304 + 2900 and 2 · 2608 + 2900.
    expect(of('tape', wrapped).map(({ lengthM }) => lengthM)).toEqual([7.508, 8.116]);
  });

  it('is pinned on all sides, as long as two layers need', () => {
    // ⌈2900 / 200⌉ = 15 rows by 3 + 3 + 2 + 2.
    expect(of('pin', wrapped)).toMatchObject([{ pieces: 150, material: { name: expect.stringContaining('75 mm') } }]);
    expect(wrapped.uncounted).toEqual([]);
  });

  it('is strapped clear of the barrier, with one more on each overlap', () => {
    const strapped = counting({
      stretches: [stretchOf([part({ measures: measures({ inBarrier: 100 }) })], at)],
      row: { testedSystem: { id: 'demonstration-blanket', fixing: 'straps' } },
    });
    // ⌈(2900 − 40 − 132.5) / 265⌉ + 1 = 12, and 2 on the overlaps of 3 strips; 2608 + 100 long.
    expect(of('strap', strapped)).toMatchObject([{ pieces: 14, length: 2708 }]);
    expect(of('pin', strapped)).toEqual([]);
  });

  it('is pinned on its underside alone where straps hold the rest, and not at all where it goes up', () => {
    const row = { testedSystem: { id: 'demonstration-blanket', fixing: 'straps-and-pins' } };
    const pinsOf = (way: 'level' | 'upright') =>
      of('pin', counting({ row, stretches: [stretchOf([part({ measures: measures({ way }) })])] }));
    // ⌈3000 / 200⌉ · ⌈600 / 200⌉.
    expect(pinsOf('level').map(({ pieces }) => pieces)).toEqual([45]);
    expect(pinsOf('upright')).toEqual([]);
  });

  it('goes on over the joint with the next piece, once', () => {
    const both = counting({
      stretches: [stretchOf([part({ joins: [1] }), part({ globalId: 'D2', name: 'Duct 2', joins: [0] })])],
    });
    const widths = (globalId: string) =>
      of('blanket', both)
        .filter(({ element, what }) => element?.globalId === globalId && what.startsWith('layer 1'))
        .reduce((sum, { pieces, width }) => sum + pieces * width!, 0);
    // 6000 with five overlaps of 100 between six strips: 6500, on either of them what is its own.
    expect(widths('D1') + widths('D2')).toBe(6500);
  });

  it('of a round duct has neither corners nor faces', () => {
    const section = { shape: 'circular', width: null, height: null, diameter: 400 } as const;
    const round = counting({ stretches: [stretchOf([part({ measures: measures({ section }) })])] });
    // π · 476 + 100 = 1595.4; 15 rings of ⌈1256.6 / 200⌉ = 7.
    expect(of('blanket', round)[0]!.length).toBe(1595.4);
    expect(of('pin', round)).toMatchObject([{ pieces: 105, formula: 'pinRings' }]);
  });

  it('lies on the insulation that is there', () => {
    const insulation = { thickness: 50, from: 'property' } as const;
    const insulated = counting({ stretches: [stretchOf([part({ measures: measures({ insulation }) })])] });
    // 2 · (700 + 500) + 8 · 38 + 100.
    expect(of('blanket', insulated)[0]!.length).toBe(2804);
  });

  it('comes from the rolls of the brief, and of pieces where these are shorter than it is long', () => {
    const takeoff = { stocks: [{ of: 'blanket' as const, length: 1500, width: 1000 }] };
    const own = counting({ stretches: [stretchOf([part({ length: 1000, to: [1000, 0, 2500] })])], takeoff });
    // 2404 from rolls of 1500: ⌈2304 / 1400⌉ = 2 of (2404 + 100) / 2.
    expect(of('blanket', own).map(cut)[0]).toEqual([2, 1252, 1000]);
  });

  it('goes round three sides of a duct that lies tight under concrete', () => {
    const tight = (length: number) =>
      counting({ stretches: [stretchOf([part()], { clearances: [clearance({ distance: 5, length })] })] });
    // Away from the slab 600, beside it 400 twice: 1400 + 4 · 38 + 100.
    expect(of('blanket', tight(3000))[0]).toMatchObject({ length: 1652 });
    // 15 · (3 + 2 + 2) pins.
    expect(of('pin', tight(3000))[0]!.pieces).toBe(105);
    // Beside a part of it alone: four sides, rather too much.
    expect(of('blanket', tight(1500))[0]!.length).toBe(2404);
  });
});

describe('what is not straight', () => {
  const fitting = (changes: Partial<PartMeasures> = {}) =>
    part({
      ...{ element: 'fitting', name: 'Bend', length: 636.4 },
      measures: measures({
        ...{ section: null, way: null, surfaceM2: 1.4137 },
        ends: [measures().section!, measures().section!],
        ...changes,
      }),
    });

  it('takes its developed surface and the allowance, and pins by its surface', () => {
    // A bend of 600 x 400, R = 450: 1.4137 m². Layer 1: · 2304 / 2000 · 1.15 = 1.87286 m², of 1220 wide 1535.1 long.
    const bend = counting({ stretches: [stretchOf([fitting()])] });
    expect(of('blanket', bend)[0]).toMatchObject({ pieces: 1, length: 1535.1, width: 1220, areaM2: 1.8729 });
    expect(of('pin', bend)).toMatchObject([{ pieces: 36, formula: 'pinSurface' }]);
    const doubled = counting({ stretches: [stretchOf([fitting()])], takeoff: { fittingAllowance: 0 } });
    expect(of('blanket', doubled)[0]!.areaM2).toBeCloseTo(1.8729 / 1.15, 3);
  });

  it('is covered as far as the face of a barrier that it passes', () => {
    // A tenth of it lies within.
    const ends = [{ penetration: 'P-0001', part: 0 }];
    const bend = counting({ stretches: [stretchOf([fitting({ inBarrier: 63.64 })], { ends })] });
    expect(of('blanket', bend)[0]!.areaM2).toBeCloseTo(1.8729 * 0.9, 3);
  });

  it('is not counted where its surface is not known, and says so', () => {
    const { drafts, uncounted } = counting({
      stretches: [stretchOf([fitting({ surfaceM2: null, unknown: 'its surface is drawn with gaps' })])],
    });
    expect(drafts).toEqual([]);
    expect(uncounted).toMatchObject([
      { material: 'blanket', what: 'blanket and what holds it on Bend', because: 'its surface is drawn with gaps' },
    ]);
  });
});

describe('a casing of boards', () => {
  const BOARD = { ...BLANKET, kind: 'board', layers: 1 } as const;
  const cased = (detail: string, changes: Partial<PartMeasures> = {}) =>
    counting({
      ...{ system: 'demonstration-board', detail },
      stretches: [
        stretchOf([part({ protection: BOARD, measures: measures({ inBarrier: 100, ...changes }) })], {
          ends: [{ penetration: 'P-0001', part: 0 }],
        }),
      ],
    });

  it('is of panels out of sheets, over those beside it', () => {
    // 600 + 2 · 40 = 680 over and under, 400 beside; 2900 from sheets of 2500.
    expect(of('board', cased('wall')).map(cut)).toEqual([
      [2, 2500, 680],
      [2, 400, 680],
      [2, 2500, 400],
      [2, 400, 400],
    ]);
    // What joins them the document does not say.
    expect(cased('wall').uncounted).toMatchObject([{ material: 'screw', what: 'what joins the boards on Duct 1' }]);
  });

  it('goes on through the barrier where it was tested so', () => {
    const area = (detail: string) => of('board', cased(detail)).reduce((sum, { areaM2 }) => sum + areaM2!, 0);
    // 2 · (680 + 400) · 3000 against 2900.
    expect(area('through-wall')).toBeCloseTo(6.48, 4);
    expect(area('wall')).toBeCloseTo(6.264, 4);
  });

  it('of a round duct is not counted', () => {
    const section = { shape: 'circular', width: null, height: null, diameter: 400 } as const;
    expect(cased('wall', { section })).toMatchObject({ drafts: [], uncounted: [{ material: 'board' }] });
  });
});

describe('what can not be counted', () => {
  const because = (given: Partial<Given>, changes: Partial<StretchPart> = {}) =>
    counting({ stretches: [stretchOf([part(changes)])], ...given }).uncounted.map((one) => one.because);

  it('goes by what the brief names for the system where the run passes no rated barrier', () => {
    const entries = [{ system: 'SA', testedSystem: 'demonstration-blanket', fixing: 'pins' }];
    const named = counting({ stretches: [stretchOf([part()])], row: { stretches: [] }, entries });
    const judged = counting({ stretches: [stretchOf([part()])] });
    expect(named.uncounted).toEqual([]);
    expect(of('blanket', named)).toEqual(of('blanket', judged));
    expect(of('pin', named)).toEqual(of('pin', judged));
  });

  it.each<[string, Partial<Given>, Partial<StretchPart>, RegExp]>([
    ['layers', {}, { protection: { ...BLANKET, layers: null } }, /how many layers/],
    ['no system', { row: { testedSystem: null } }, {}, /no one tested system is settled/],
    ['no barrier', { row: { stretches: [] } }, {}, /passes no rated barrier, and the brief does not name/],
    ['another kind', { system: 'demonstration-board' }, {}, /protects otherwise/],
    [
      'insulation',
      {},
      { measures: measures({ insulation: { thickness: null, from: 'name' } }) },
      /nothing says how thick/,
    ],
    ['fixing', { row: { testedSystem: { id: 'demonstration-blanket', fixing: null } } }, {}, /which fixing holds it/],
    ['pins', {}, { protection: { ...BLANKET, layers: 4 } }, /no length of pins for 4 layers/],
    ['what is drawn', {}, { measures: measures({ section: null, unknown: 'drawn larger' }) }, /drawn larger/],
  ])('says why: %s', (_, given, changes, words) => {
    expect([...new Set(because(given, changes))]).toEqual([expect.stringMatching(words)]);
  });

  it('is counted by the tested system at the ends of the stretch where the run has several', () => {
    const ends = [{ penetration: 'P-0001', part: 0 }];
    const { drafts } = counting({ stretches: [stretchOf([part()], { ends })], row: { testedSystem: null } });
    expect(of('blanket', { drafts })[0]).toMatchObject({ length: 2404 });
    // A board there protects otherwise.
    const boarded = { system: 'demonstration-board', detail: 'wall', row: { testedSystem: null } };
    expect(counting({ ...boarded, stretches: [stretchOf([part()], { ends })] })).toMatchObject({
      drafts: [],
      uncounted: [{ because: expect.stringMatching(/no one tested system/) }],
    });
  });

  it('of several pieces for one reason is said once, with their names', () => {
    const parts = [1, 2, 3, 4, 5, 6, 7].map((n) => part({ globalId: `D${n}`, name: `Duct ${n}`, measures: null }));
    expect(counting({ stretches: [stretchOf(parts)] }).uncounted).toMatchObject([
      { what: 'blanket and what holds it on Duct 1, Duct 2, Duct 3, Duct 4, Duct 5 and 2 more' },
    ]);
  });

  it('is what must be protected and is bare', () => {
    const bare = { kind: 'none', evidence: null, layers: null, integrity: null, insulation: null } as const;
    const { lapses } = aStrategyRow('SA');
    const given = counting({
      stretches: [stretchOf([part({ protection: bare, measures: null })])],
      row: { lapses: [{ ...lapses[0]!, doubtful: false, elements: [{ model: 'm1', globalId: 'D1' }] }] },
    });
    expect(given).toMatchObject({
      drafts: [],
      uncounted: [
        { material: null, what: 'protection on Duct 1', because: 'nothing protects it; nothing is counted for it' },
      ],
    });
  });

  it('never is a duct that resists fire by itself, a damper in a barrier, or an access panel', () => {
    const own = { ...BLANKET, kind: 'fireResistingDuct' } as const;
    const panels = [{ model: 'm1', globalId: 'D3' }];
    const nothing = counting({
      stretches: [
        stretchOf(
          [
            part({ protection: own }),
            part({ globalId: 'D2', element: 'damper' }),
            part({ globalId: 'D3', element: 'fitting', measures: measures({ section: null }) }),
          ],
          { ends: [{ penetration: 'P-0001', part: 1 }] },
        ),
      ],
      row: { crossings: [{ penetration: 'P-0001', treatment: 'damper' }] },
      crossings: { access: [{ run: 'R-002', panels }] as unknown as Crossings['access'] },
    });
    expect(nothing).toEqual({ drafts: [], uncounted: [] });
  });
});

it('of any piece cuts at least what it covers, and numbers that are numbers', () => {
  for (let n = 0; n < 400; n++) {
    // Sizes, lengths and barriers that share no period; some of no length, some that lie in a barrier as a whole.
    const [width, height, length] = [100 + ((n * 137) % 1900), 100 + ((n * 71) % 900), (n * 613) % 9000];
    const inBarrier = n % 7 === 0 ? length : (n * 29) % 300;
    const section = { shape: n % 3 === 0 ? 'oval' : 'rectangular', width, height, diameter: null } as const;
    const { drafts, uncounted } = counting({
      stretches: [
        stretchOf([part({ length, measures: measures({ section, inBarrier }) })], {
          ends: [{ penetration: 'P-0001', part: 0 }],
        }),
      ],
      row: { testedSystem: { id: 'demonstration-blanket', fixing: n % 2 ? 'pins' : 'straps' } },
    });
    expect(uncounted).toEqual([]);
    for (const draft of drafts)
      for (const value of [draft.pieces, draft.length, draft.width, draft.lengthM, draft.areaM2, draft.massKg])
        expect(value === null || (Number.isFinite(value) && value > 0)).toBe(true);
    for (const layer of [1, 2]) {
      const own = of('blanket', { drafts }).filter(({ what }) => what.startsWith(`layer ${layer}`));
      const area = own.reduce((sum, { areaM2 }) => sum + areaM2!, 0);
      const covered = Math.max(0, length - inBarrier);
      const long = Math.max(width, height);
      const short = Math.min(width, height);
      const bare = section.shape === 'oval' ? Math.PI * short + 2 * (long - short) : 2 * (width + height);
      const round = bare + layer * 38 * (section.shape === 'oval' ? 2 * Math.PI : 8);
      expect(area).toBeGreaterThanOrEqual((covered * round) / 1e6 - 1e-3);
      expect(area > 0).toBe(covered > 0);
    }
  }
});

describe('supports', () => {
  const row: SupportRow = {
    ...aSupportRow('SA'),
    ...{ run: 'R-001', elements: [{ model: 'm1', globalId: 'D1' }], width: 600, height: 400 },
    ...{ needed: 3, rod: 'M10', bearer: 'L 40x40x4', bearerLength: 952, bearerMass: 2.3 },
  };
  const stretches = [stretchOf([part({ protection: { ...BLANKET, kind: 'fireResistingDuct' } })])];

  it('have two rods and a bearer each; how long the rods are the brief or the models say', () => {
    const untold = counting({ stretches, judgement: { supports: [row] } });
    // 3 · 952 mm of 2.3 kg each.
    expect(of('bearer', untold)).toMatchObject([{ pieces: 3, length: 952, lengthM: 2.856, massKg: 6.9 }]);
    expect(of('rod', untold)).toMatchObject([{ pieces: 6, length: null, lengthM: null, place: { storey: 'S1' } }]);
    expect(untold.uncounted).toMatchObject([{ material: 'rod', what: 'length of rods M10 on ducts of 600 x 400 mm' }]);
    const told = counting({ stretches, judgement: { supports: [row] }, takeoff: { rodLength: 800 } });
    expect(of('rod', told)).toMatchObject([{ pieces: 6, length: 800, lengthM: 4.8 }]);
    expect(told.uncounted).toEqual([]);
    const carries = { model: 'm1', globalId: 'D1' };
    const supports = {
      supports: [
        { carries, rodLength: 700 },
        { carries, rodLength: 900 },
        { carries, rodLength: null },
      ],
    };
    const shown = counting({
      ...{ stretches, judgement: { supports: [row] }, takeoff: { rodLength: 800 } },
      crossings: { supports: supports as unknown as NonNullable<Crossings['supports']> },
    });
    expect(of('rod', shown)[0]).toMatchObject({
      length: 900,
      what: expect.stringMatching(/the longest that the models show/),
    });
  });

  it('of what goes up are not in the schedule, and are said to be missing', () => {
    const up = counting({ stretches: [stretchOf([part({ measures: measures({ way: 'upright' }) })])] });
    expect(up.uncounted).toMatchObject([{ material: 'bearer', what: 'supports on Duct 1' }]);
    const asksNothing = { mustResist: false };
    expect(
      counting({ stretches: [stretchOf([part({ measures: measures({ way: 'upright' }) })])], row: asksNothing })
        .uncounted,
    ).toEqual([]);
  });

  it('of which nobody knows how far apart they stand are not counted', () => {
    const { drafts, uncounted } = counting({ stretches, judgement: { supports: [{ ...row, needed: null }] } });
    expect(drafts).toEqual([]);
    expect(uncounted.map(({ material }) => material)).toEqual(['rod', 'bearer']);
  });
});

it('counts access panels on protected ductwork, and those that are proposed', () => {
  const panel = {
    model: 'm1',
    globalId: 'AP',
    name: 'Panel',
    duct: { model: 'm1', globalId: 'D1' },
    width: 400,
    height: 300,
  };
  const proposed = { run: 'R-001', system: 'SA', at: [1500, 0, 2500], size: 300, reason: 'too far', source: 'a test' };
  const { drafts } = counting({
    stretches: [stretchOf([part()])],
    crossings: { access: [{ run: 'R-001', panels: [panel] }] as unknown as Crossings['access'] },
    judgement: { proposedPanels: [proposed] as unknown as Judgement['proposedPanels'] },
  });
  expect(of('accessPanel', { drafts }).map(({ material, element }) => [material.name, element?.globalId])).toEqual([
    ['access panel, 400 x 300 mm', 'D1'],
    ['access panel, at least 300 x 300 mm', 'D1'],
  ]);
});
