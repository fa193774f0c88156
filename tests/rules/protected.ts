import type { Crossings } from '../../src/model.js';
import type { JudgeOptions } from '../../src/rules/index.js';
import {
  barrier,
  choicesFor,
  crossings,
  damper,
  duct,
  gaps,
  penetration,
  rating,
  treated,
  wrapped,
} from './factories.js';

/** SA is held by pins and SB by straps; KX must never have dampers. */
export const demonstrationBrief = {
  demonstration: true,
  choices: choicesFor({}, { system: 'SB', fixing: 'straps' }, { system: 'KX', dampers: 'never' }),
} satisfies JudgeOptions['brief'];

const opening = { model: 'm2', globalId: 'O2', shape: 'circular', width: 1700, height: 1700, from: 'element' } as const;

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
  ],
});
