import type { Crossings, DuctProtection, Penetration } from '../../src/model.js';
import type { JudgeOptions } from '../../src/rules/index.js';
import {
  barrier,
  choicesFor,
  compartment,
  crossings,
  damper,
  duct,
  gaps,
  penetration,
  rating,
  run,
  stretch,
  stretchPart,
  treated,
  wrapped,
} from './factories.js';

/** SA is held by pins, SB by straps, SF by straps with the underside pinned; SD resists fire by itself; KX must never have dampers. */
export const demonstrationBrief = {
  demonstration: true,
  choices: {
    ...choicesFor(
      {},
      { system: 'SB', fixing: 'straps' },
      { system: 'SF', fixing: 'straps-and-pins' },
      { system: 'KX', dampers: 'never' },
      { system: 'SD', testedSystem: 'demonstration-duct', fixing: undefined },
    ),
    movement: 5,
  },
} satisfies JudgeOptions['brief'];

const opening = { model: 'm2', globalId: 'O2', shape: 'circular', width: 1700, height: 1700, from: 'element' } as const;

const edge = { side: 'top', kind: 'end', distance: 50, element: { model: 'm2', globalId: 'W4' } } as const;

/** In a wall of masonry, by its own sheet of so many millimetres. */
export const resisting = (changes: Partial<Penetration>, sheet: number, name = 'Resists by itself'): Penetration =>
  wrapped({
    duct: duct({
      name,
      system: 'SD',
      ...(sheet < 1 && { width: 600, height: 100 }),
      wall: { ...duct().wall, sheet: { thickness: sheet, from: 'property' } },
    }),
    barrier: barrier({
      ...{ globalId: 'W4', name: 'Masonry wall', construction: 'masonry', thickness: 190, leafThickness: 190 },
      rating: rating({ insulation: 90 }),
    }),
    treatment: { ...wrapped().treatment, kind: 'fireResistingDuct', layers: null },
    ...changes,
  });

/** Protected ducts: one that meets every limit of the demonstration blanket, and others that together miss each. */
export const protectedCrossings: Crossings = crossings({
  penetrations: [
    wrapped({ neighbours: [{ penetration: 'P-0002', distance: 260 }] }),
    wrapped({ id: 'P-0002', key: 'key-2' }),
    wrapped({
      id: 'P-0003',
      key: 'key-3',
      duct: duct({ name: 'Too large', system: 'SB', width: 3700, height: 3700 }),
      barrier: barrier({ globalId: 'W2', name: 'Thin wall', thickness: 50 }),
      gaps: gaps({ bottom: 70, max: 70 }),
      skew: 25,
      treatment: { ...treated('blanket').treatment, layers: 1 },
      neighbours: [{ penetration: 'P-0004', distance: 80 }],
    }),
    wrapped({
      id: 'P-0004',
      key: 'key-4',
      duct: duct({ name: 'Round', system: 'SB', shape: 'circular', diameter: 1500 }),
      barrier: barrier({ globalId: 'W2', name: 'Thin wall', thickness: 50 }),
      opening,
      gaps: { ...gaps(), top: null, bottom: null, left: null, right: null },
    }),
    wrapped({
      id: 'P-0005',
      key: 'key-5',
      duct: duct({ name: 'Flexible', element: 'flexible', shape: 'oval', material: 'plastic' }),
      barrier: barrier({ globalId: 'W3', name: 'Timber wall', construction: 'timberStud' }),
    }),
    wrapped({ id: 'P-0006', key: 'key-6', treatment: { ...wrapped().treatment, kind: 'board' } }),
    penetration({
      id: 'P-0007',
      key: 'key-7',
      duct: duct({ name: 'Exhaust', system: 'KX', stated: { width: 600, height: 600, diameter: null } }),
      dampers: [damper({ rating: rating({ integrity: 60, insulation: 'none' }) })],
      ...treated('damper'),
    }),
    penetration({
      id: 'P-0008',
      key: 'key-8',
      duct: duct({ stated: { width: 600, height: 400, diameter: null } }),
      dampers: [damper({ globalId: 'V2' })],
      ...treated('damper'),
    }),
    wrapped({
      id: 'P-0009',
      key: 'key-9',
      duct: duct({ name: 'Good and round', shape: 'circular', diameter: 315 }),
      opening,
      gaps: { ...gaps(), top: null, bottom: null, left: null, right: null },
    }),
    resisting({ id: 'P-0010', key: 'key-10' }, 1),
    resisting(
      { id: 'P-0011', key: 'key-11', around: [edge], opening: { ...opening, shape: 'rectangular' } },
      0.5,
      'Flat and thin',
    ),
    resisting({ id: 'P-0012', key: 'key-12' }, 2, 'Thick'),
    wrapped({ id: 'P-0014', key: 'key-14', duct: duct({ name: 'Pinned below', system: 'SF' }) }),
    wrapped({
      id: 'P-0013',
      key: 'key-13',
      duct: duct({ name: 'In a slab' }),
      barrier: barrier({ globalId: 'F1', name: 'Slab', kind: 'floor', construction: 'masonry' }),
    }),
  ],
});

/** A run through P-0001 and P-0002: a blanket at the first, and at the second what is given. */
export function protectedByTwo(kind: DuctProtection['kind'], testedSystem: string) {
  const ends = (...ids: string[]) => ids.map((penetration) => ({ penetration, part: 0 }));
  const inside = { kind, evidence: 'a drawing', layers: 1, integrity: 120, insulation: 120 };
  const stretches = [
    stretch({ serves: [{ model: 'm1', globalId: 'T1' }], ends: ends('P-0001') }),
    stretch({ id: 'R-001.2', compartment: 'C-0002', parts: [stretchPart()], ends: ends('P-0001', 'P-0002') }),
    stretch({
      ...{ id: 'R-001.3', compartment: 'C-0002', ends: ends('P-0002') },
      parts: [stretchPart({ globalId: 'D3', protection: inside })],
    }),
  ];
  const found = crossings({
    penetrations: [
      wrapped({ duct: duct({ run: 'R-001' }) }),
      wrapped({
        ...{ id: 'P-0002', key: 'key-2', duct: duct({ globalId: 'D3', system: 'SX', run: 'R-001' }) },
        treatment: { ...wrapped().treatment, kind },
      }),
    ],
    runs: [run({ stretches })],
    compartments: [compartment(), compartment({ id: 'C-0002', name: 'Corridor' })],
  });
  const choices = choicesFor({}, { system: 'SX', testedSystem, fixing: undefined });
  return { crossings: found, brief: { demonstration: true, choices } };
}
