import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRatings } from '../../src/fire-rating/index.js';
import type { Minutes, Rating } from '../../src/model.js';
import { briefSays } from '../../src/rules/brief-says.js';
import { requiredAt, requiredMinutes, treatmentMinutes } from '../../src/rules/minutes.js';
import type { BriefChoices } from '../../src/rules/project-brief.js';
import {
  damper as aDamper,
  barrier,
  choicesFor,
  duct,
  NOT_REQUIRED,
  penetration,
  rating,
  treated,
} from './factories.js';

const saysOf = (system: string | null, choices: BriefChoices | undefined) => briefSays(duct({ system }), { choices });
const NO_BRIEF = saysOf('SA', undefined);

const minutes = fc.constantFrom<Minutes>(0, 30, 60, 120, 'none', null);
const anyRating: fc.Arbitrary<Rating> = fc
  .record({
    state: fc.constantFrom('stated', 'durationOnly', 'unstated', 'unreadable' as const),
    integrity: minutes,
    insulation: minutes,
    duration: fc.constantFrom(30, 60, 120),
    // Of another test than the standard fire (E300), from memory; its numbers mean nothing beside the others.
    text: fc.constantFrom('a text', 'E300 60'),
  })
  .map(({ state, integrity, insulation, duration, text }) => {
    if (state === 'stated') return rating({ state, integrity, insulation, text });
    const isDuration = state === 'durationOnly';
    return rating({
      state,
      text,
      integrity: null,
      insulation: null,
      loadbearing: null,
      duration: isDuration ? duration : null,
    });
  });

describe('minutes of a damper against those of a barrier', () => {
  // The comparison of ratings is the judge; it is tested against published notations by itself.
  it.each(['integrity', 'insulation'] as const)('%s: as numbers they compare as the ratings do', (criterion) => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(anyRating, anyRating, (required, provided) => {
        const asked = requiredMinutes(required, NO_BRIEF);
        const dampers = [aDamper({ rating: provided })];
        const given = treatmentMinutes(penetration({ ...treated('damper'), dampers }), asked);
        const [a, b] = [asked[criterion], given[criterion]];
        // What the check says of a bare duration that is not reached: perhaps it is not asked for.
        const isOpen = a === undefined || b === undefined || (required.state === 'durationOnly' && b < a);
        const outcome = a === 0 ? 'met' : isOpen ? 'unknown' : b >= a ? 'met' : 'missed';
        seen.add(outcome);
        const judged = compareRatings(required, provided, [criterion]);
        // Two ratings of the same other test could be compared; we don't, and never call it more than unknown.
        if (outcome !== 'unknown') expect(outcome).toBe(judged);
        else if (!required.text?.startsWith('E300')) expect(judged).toBe('unknown');
      }),
      { numRuns: 3000, seed: 20261125 },
    );
    expect([...seen].sort()).toEqual(['met', 'missed', 'unknown']);
  });

  it('of several fire dampers the weakest counts, and others do not', () => {
    const damper = (integrity: Minutes, purpose: 'fire' | 'control' = 'fire') =>
      aDamper({ purpose, rating: rating({ integrity }) });
    const of = (...dampers: ReturnType<typeof damper>[]) =>
      treatmentMinutes(penetration({ ...treated('damper'), dampers }), { integrity: 60, insulation: 60 }).integrity;
    expect(of(damper(120), damper(60))).toBe(60);
    expect(of(damper(120), damper(null))).toBeUndefined();
    expect(of(damper(120), damper(30, 'control'))).toBe(120);
    expect(of(damper(30, 'control'))).toBeUndefined();
  });
});

describe('what is asked', () => {
  it.each([
    ['the barrier alone', rating({ integrity: 60 }), saysOf('SA', choicesFor()), 60],
    ['more by the brief', rating({ integrity: 60 }), saysOf('SA', choicesFor({ integrity: 120 })), 120],
    ['less by the brief', rating({ integrity: 60 }), saysOf('SA', choicesFor({ integrity: 30 })), 60],
    [
      'a criterion that the barrier does not ask, but the brief',
      rating({ integrity: 'none' }),
      saysOf('SA', choicesFor({ integrity: 30 })),
      30,
    ],
    ['nothing', rating({ integrity: 'none' }), saysOf('SA', undefined), 0],
    ['nothing, and said so', NOT_REQUIRED, saysOf('SA', undefined), 0],
    ['not known of the barrier', rating({ integrity: null }), saysOf('SA', choicesFor({ integrity: 120 })), undefined],
    ['a system that the brief does not list', rating(), saysOf('XX', choicesFor({ integrity: 120 })), undefined],
    ['no known system', rating(), saysOf(null, choicesFor({ integrity: 120 })), undefined],
  ])('%s', (_, given, says, expected) => {
    expect(requiredMinutes(given, says).integrity).toBe(expected);
  });
});

it('asks at a penetration for the more of barrier and brief, and knows nothing of a system that is not listed', () => {
  const at = penetration({ barrier: barrier({ rating: rating({ integrity: 60, insulation: 'none' }) }) });
  expect(requiredAt(at, {})).toEqual({ integrity: 60, insulation: 0 });
  expect(requiredAt(at, { choices: choicesFor({ integrity: 30, insulation: 120 }) })).toEqual({
    integrity: 60,
    insulation: 120,
  });
  expect(requiredAt(at, { choices: choicesFor({ system: 'KX' }) })).toEqual({ integrity: null, insulation: null });
});

it('takes the minutes of a protection as they are declared, and of a damper that is nowhere drawn too', () => {
  const asked = { integrity: 60, insulation: 60 };
  const { treatment } = treated('blanket');
  const declared = { ...treatment, integrity: 120, insulation: 60 };
  expect(treatmentMinutes(penetration({ treatment: declared }), asked)).toEqual({ integrity: 120, insulation: 60 });
  expect(treatmentMinutes(penetration({ treatment: { ...declared, kind: 'damper' } }), asked)).toEqual({
    ...{ integrity: 120, insulation: 60 },
  });
  expect(treatmentMinutes(penetration({ treatment }), asked)).toEqual({ integrity: undefined, insulation: undefined });
});
