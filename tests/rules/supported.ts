/** Protected runs with what holds them up. R-001 is wrapped in the demonstration blanket, R-002 in the demonstration board. */
import type {
  CarriedDuct,
  Crossings,
  HangsFrom,
  Penetration,
  Run,
  SupportFacts,
  SupportSpan,
  SupportsFound,
} from '../../src/model.js';
import type { JudgeOptions } from '../../src/rules/index.js';
import {
  barrier,
  choicesFor,
  compartment,
  crossings,
  duct,
  rating,
  run,
  stretch,
  stretchPart,
  wrapped,
} from './factories.js';

/** The worked hanger: the bearer reaches 100 mm beyond the protection. The board says nothing of supports. */
const choices = {
  ...choicesFor({}, { system: 'SB', testedSystem: 'demonstration-board', fixing: undefined }),
  supports: { rods: 2, bearerBeyond: 100, rodFromSide: 60 },
};
export const supportedBrief = { demonstration: true, choices } satisfies JudgeOptions['brief'];

/** 1000 × 500 mm of 1 mm sheet, level. */
export const carriedDuct = (changes: Partial<CarriedDuct> = {}): CarriedDuct => ({
  ...{ model: 'm1', globalId: 'D2', name: 'Duct 2', shape: 'rectangular', width: 1000, height: 500, diameter: null },
  ...{ way: 'level', sheet: { thickness: 1, from: 'property' }, insulation: null, material: 'steel' },
  ...changes,
});

/** A concrete floor for 120 minutes. */
export const slab = (changes: Partial<HangsFrom> = {}): HangsFrom => ({
  ...{ model: 'm2', globalId: 'S1', name: 'Slab', kind: 'floor', construction: 'concrete' },
  rating: rating({ loadbearing: 120 }),
  ...changes,
});

/** Two rods M8 with an angle, 1.2 m of duct on it, under that floor. */
export const support = (changes: Partial<SupportFacts> = {}): SupportFacts => ({
  ...{ id: 'H1', name: 'Hanger 1', elements: [{ model: 'm1', globalId: 'H1' }], run: 'R-001' },
  ...{ carries: { model: 'm1', globalId: 'D2' }, position: [600, 0, 2500] },
  ...{ rod: 'M8', bearer: 'L 40x40x4', rodLength: 1200, hangsFrom: slab(), carried: 1200 },
  ...changes,
});

/** 1.2 m between two supports. */
export const span = (changes: Partial<SupportSpan> = {}): SupportSpan => ({
  ...{ kind: 'supports', run: 'R-001', length: 1200, supports: ['H1', 'H2'], penetration: null },
  ...{ parts: [{ stretch: 'R-001.2', part: 0 }], at: [1200, 0, 2500] },
  ...changes,
});

const SERVES = [{ model: 'm1', globalId: 'T1' }];
const SERVED = stretch({ serves: SERVES });
const behind = stretch({
  id: 'R-001.2',
  compartment: 'C-0002',
  parts: [stretchPart({ globalId: 'D2', name: 'Duct 2' })],
});
export const wrappedRun: Run = run({ stretches: [SERVED, behind] });

const BOARD = { kind: 'board', evidence: 'a drawing', layers: 1, integrity: 120, insulation: 120 } as const;
const boardPart = (globalId: string) => stretchPart({ globalId, name: `Duct ${globalId.slice(1)}`, protection: BOARD });
const ends = [{ penetration: 'P-0002', part: 0 }];
const boardedRun: Run = run({
  ...{ id: 'R-002', system: 'SB', systems: ['SB'] },
  stretches: [
    stretch({ id: 'R-002.1', parts: [boardPart('D3')], ends, serves: SERVES }),
    stretch({ id: 'R-002.2', compartment: 'C-0002', parts: [boardPart('D4')], ends }),
  ],
});
const boarded = (): Penetration => {
  const { treatment } = wrapped();
  return wrapped({
    ...{ id: 'P-0002', key: 'key-2', duct: duct({ globalId: 'D3', name: 'Duct 3', system: 'SB' }) },
    treatment: { ...treatment, kind: 'board', layers: 1 },
  });
};

const COMPARTMENTS = [compartment({ name: 'Kitchen' }), compartment({ id: 'C-0002', name: 'Corridor' })];
const found = (supports: Partial<SupportsFound>, modelledRun: string): SupportsFound => ({
  ...{ ducts: [carriedDuct()], supports: [], spans: [], modelledRuns: [modelledRun] },
  ...supports,
});

/** The wrapped run, all of whose supports are modelled unless that is changed, through a wall for so many minutes. */
export const wrappedWith = (supports: Partial<SupportsFound>, minutes = 120): Crossings =>
  crossings({
    penetrations: [wrapped({ barrier: barrier({ rating: rating({ integrity: minutes, insulation: minutes }) }) })],
    ...{ runs: [wrappedRun], compartments: COMPARTMENTS, supports: found(supports, 'R-001') },
  });

/** Of the boarded run what lies in the corridor: D4. */
export const onBoard = { carries: { model: 'm1', globalId: 'D4' }, run: 'R-002' } as const;
export const alongBoard = { run: 'R-002', parts: [{ stretch: 'R-002.2', part: 0 }] } as const;
export const boardedDuct = (changes: Partial<CarriedDuct> = {}): CarriedDuct =>
  carriedDuct({ globalId: 'D4', name: 'Duct 4', ...changes });

/** The same of the boarded run. */
export const boardedWith = (supports: Partial<SupportsFound>, minutes = 120): Crossings => {
  const wall = barrier({ rating: rating({ integrity: minutes, insulation: minutes }) });
  return crossings({
    penetrations: [{ ...boarded(), barrier: wall }],
    ...{ runs: [boardedRun], compartments: COMPARTMENTS },
    supports: found({ ducts: [boardedDuct()], ...supports }, 'R-002'),
  });
};

/** Both runs with supports that together meet and miss each check, nothing of them unknown. */
export const supportedCrossings: Crossings = crossings({
  penetrations: [wrapped(), boarded()],
  runs: [wrappedRun, boardedRun],
  compartments: COMPARTMENTS,
  supports: {
    ducts: [carriedDuct(), boardedDuct()],
    supports: [
      support({ rod: 'M12', carried: 900 }),
      support({
        ...{ id: 'H2', name: 'Hanger 2', elements: [{ model: 'm1', globalId: 'H2' }], position: [1800, 0, 2500] },
        ...{ rod: 'M6', bearer: 'L 25x25x3', rodLength: 1800, carried: 1600 },
        hangsFrom: slab({ globalId: 'B1', name: 'Beam', kind: 'beam', rating: rating({ loadbearing: 60 }) }),
      }),
      support({ ...onBoard, id: 'H3', name: 'Hanger 3', elements: [{ model: 'm1', globalId: 'H3' }] }),
    ],
    spans: [
      span({ kind: 'barrier', length: 700, supports: ['H1'], penetration: 'P-0001' }),
      span({ length: 1600 }),
      span({ kind: 'end', length: 1700, supports: ['H2'] }),
      span({ kind: 'riser', length: 4100, supports: [] }),
      span({ ...alongBoard, kind: 'riser', length: 5100, supports: [] }),
    ],
    modelledRuns: ['R-001', 'R-002'],
  },
});
