import { describe, expect, it } from 'vitest';
import { runExamples } from '../../src/rules/index.js';
import {
  barrier,
  crossings,
  facingEnds,
  modelInfo,
  NO_GAPS,
  NOT_REQUIRED,
  penetration,
  rating,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
import { possibleOutcomes, ruleCases, shippedRules } from './rule-cases.js';

const one = (changes: Parameters<typeof penetration>[0] = {}) => crossings({ penetrations: [penetration(changes)] });
const inWall = (wall: Parameters<typeof barrier>[0], changes: Parameters<typeof penetration>[0] = {}) =>
  one({ barrier: barrier(wall), ...changes });

describe('examples in the shipped document', () => {
  it.each(runExamples(shippedRules))(
    '$check, example $example (line $line): $expected',
    ({ got, expected, messages }) => {
      expect(got).toBe(expected);
      expect(messages.join()).not.toMatch(/[{}]|undefined|NaN/);
    },
  );

  it.each(shippedRules.checks)('$definition.id has an example of every outcome that can occur', (check) => {
    const shown = new Set(check.definition.examples.map(({ outcome }) => outcome));
    expect([...shown].sort()).toEqual(possibleOutcomes(check).sort());
  });

  it('proves nothing about fire', () => {
    for (const { proof, definition, file } of shippedRules.checks) {
      // What goes by a tested system or damper has its proof.
      const byItself = definition.basis.status === 'system' ? 'system' : 'unverified';
      expect(proof, file).toBe(definition.about === 'model' ? 'model' : byItself);
    }
  });
});

ruleCases('review-possible', [
  { why: 'something to review', crossings: one(), models: [modelInfo()], findings: [{ outcome: 'passed' }] },
  { why: 'a host that does not say what its models hold', crossings: one(), findings: [{ outcome: 'passed' }] },
  {
    why: 'no barriers',
    crossings: crossings(),
    models: [modelInfo()],
    findings: [
      { outcome: 'cantTell', missing: ['model.barriers'], subject: { type: 'model', id: 'federation', elements: [] } },
    ],
  },
  {
    why: 'no ductwork',
    crossings: crossings({ barriers: [barrier()] }),
    models: [modelInfo({ ducts: 0 })],
    findings: [{ outcome: 'cantTell', missing: ['model.ductwork'] }],
  },
  {
    why: 'files that do not overlap',
    crossings: crossings({
      barriers: [barrier()],
      apart: [{ model: 'm1', from: 'm2', distance: 1500.5, offset: [-2000, 0, 3000] }],
    }),
    models: [modelInfo()],
    findings: [
      {
        outcome: 'cantTell',
        missing: ['model.overlap'],
        message:
          'services.ifc lies 1500.5 mm apart from the nearest other file, m2 (from middle to middle -2000 mm along x, 0 mm along y, 3000 mm along z), so what it holds cannot be compared (files that lie apart: 1).',
      },
    ],
  },
  {
    why: 'no penetrations',
    crossings: crossings({ barriers: [barrier()] }),
    models: [modelInfo()],
    findings: [{ outcome: 'cantTell', missing: ['model.penetrations'] }],
  },
  {
    why: 'no stated rating at all',
    crossings: inWall({ rating: UNREADABLE }),
    models: [modelInfo()],
    findings: [{ outcome: 'cantTell', missing: ['barrier.rating'] }],
  },
]);

ruleCases('barrier-rating-known', [
  { why: 'stated', crossings: one(), findings: [{ outcome: 'passed' }] },
  {
    why: 'a duration without criteria',
    crossings: inWall({ rating: rating({ state: 'durationOnly', integrity: null, insulation: null, duration: 60 }) }),
    findings: [{ outcome: 'passed' }],
  },
  { why: 'not required', crossings: inWall({ rating: NOT_REQUIRED }), findings: [{ outcome: 'inapplicable' }] },
  {
    why: 'unstated',
    crossings: inWall({ rating: UNSTATED }),
    findings: [
      {
        outcome: 'cantTell',
        missing: ['barrier.rating'],
        message: 'Wall 1 states no fire rating (penetrations that wait for it: 1 of 1).',
        subject: { type: 'barrier', id: 'W1', elements: [{ model: 'm2', globalId: 'W1' }] },
        at: [3000, 0, 2000],
      },
    ],
  },
  {
    why: 'unreadable, with the text that was found',
    crossings: inWall({ rating: UNREADABLE }),
    findings: [{ outcome: 'cantTell', message: expect.stringContaining('"FR 1hr (TBC)"') }],
  },
  {
    why: 'stated, but nothing of integrity and insulation',
    crossings: inWall({ rating: rating({ text: 'R 90', loadbearing: 90, integrity: null, insulation: null }) }),
    findings: [{ outcome: 'cantTell', missing: ['barrier.rating'] }],
  },
  {
    why: 'a barrier that only duct ends face',
    crossings: crossings({ facingEnds: [facingEnds({ barrier: barrier({ rating: UNSTATED }) })] }),
    findings: [{ outcome: 'cantTell', at: [0, 0, 2000] }],
  },
  {
    why: 'a barrier that nothing passes',
    crossings: crossings({ barriers: [barrier({ rating: UNSTATED })] }),
    findings: [],
  },
]);

ruleCases('crossing-complete', [
  { why: 'through', crossings: one(), findings: [{ outcome: 'passed' }] },
  {
    why: 'ends inside',
    crossings: one({ crossing: 'endsInside' }),
    findings: [
      { outcome: 'cantTell', missing: ['penetration.crossing'], message: expect.stringContaining('ends inside') },
    ],
  },
  {
    why: 'partial',
    crossings: one({ crossing: 'partial' }),
    findings: [{ outcome: 'cantTell', missing: ['penetration.crossing'] }],
  },
  {
    why: 'not required',
    crossings: inWall({ rating: NOT_REQUIRED }, { crossing: 'partial' }),
    findings: [{ outcome: 'inapplicable' }],
  },
]);

ruleCases('opening-modelled', [
  { why: 'with an opening', crossings: one(), findings: [{ outcome: 'passed', measured: true }] },
  {
    why: 'without an opening',
    crossings: one({ opening: null, gaps: NO_GAPS }),
    findings: [{ outcome: 'failed', measured: false, limit: { equals: true }, margin: null }],
  },
  {
    why: 'criteria asked of neither integrity nor insulation',
    crossings: inWall({ rating: rating({ integrity: 'none', insulation: 'none' }) }, { opening: null }),
    findings: [{ outcome: 'inapplicable' }],
  },
  {
    why: 'ends inside',
    crossings: one({ crossing: 'endsInside', opening: null }),
    findings: [{ outcome: 'inapplicable' }],
  },
  {
    why: 'rating not known',
    crossings: inWall({ rating: UNSTATED }, { opening: null }),
    findings: [{ outcome: 'cantTell', missing: ['barrier.rating'] }],
  },
]);

ruleCases('ducts-joined', [
  {
    why: 'two ends with nothing between',
    crossings: crossings({ facingEnds: [facingEnds()] }),
    findings: [
      {
        outcome: 'cantTell',
        missing: ['duct.connection'],
        at: [0, 0, 2000],
        subject: {
          type: 'barrier',
          id: 'W1',
          elements: [
            { model: 'm2', globalId: 'W1' },
            { model: 'm1', globalId: 'E1' },
            { model: 'm1', globalId: 'E2' },
          ],
        },
      },
    ],
  },
  {
    why: 'not required',
    crossings: crossings({ facingEnds: [facingEnds({ barrier: barrier({ rating: NOT_REQUIRED }) })] }),
    findings: [{ outcome: 'inapplicable' }],
  },
]);

describe('words', () => {
  it('uses the names of things and their numbers', () => {
    // Every failed message of the shipped document carries what was measured and what is allowed, where they are numbers.
    for (const { definition } of shippedRules.checks) {
      if (definition.atLeast === undefined && definition.atMost === undefined) continue;
      expect(definition.message?.failed).toMatch(/\{measured\}.*\{(limit|atLeast|atMost)\}/);
    }
  });
});
