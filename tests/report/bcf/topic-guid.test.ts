import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { penetrationKey } from '../../../src/find/keys.js';
import { partGuid, subjectOf, topicGuid } from '../../../src/report/bcf/topic-guid.js';

/** RFC 9562: version 8 in the seventh byte, variant 10 in the ninth. */
const VERSION_8 = /^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

describe('GUIDs of topics', () => {
  it('give back the key of any finding', () =>
    fc.assert(
      fc.property(fc.stringMatching(/^[0-9a-f]{16}$/), (key) => {
        const guid = topicGuid({ kind: 'finding', key });
        expect(guid).toMatch(VERSION_8);
        expect(subjectOf(guid)).toEqual({ kind: 'finding', key });
        expect(subjectOf(guid.toUpperCase())).toEqual({ kind: 'finding', key });
      }),
    ));

  it('give back the key of any penetration', () =>
    fc.assert(
      fc.property(fc.string(), fc.string(), (duct, barrier) => {
        const key = penetrationKey(duct, barrier, 1);
        const guid = topicGuid({ kind: 'penetration', key });
        expect(guid).toMatch(VERSION_8);
        expect(subjectOf(guid)).toEqual({ kind: 'penetration', key });
      }),
    ));

  it('of others are not taken for ours, nor one of ours with a digit changed', () => {
    fc.assert(
      fc.property(fc.uuid({ version: [1, 4, 7, 8] }), (guid) => subjectOf(guid) === undefined),
      { numRuns: 2000 },
    );
    const guid = topicGuid({ kind: 'finding', key: '0123456789abcdef' });
    for (let i = 0; i < guid.length; i++)
      for (const digit of '0123456789abcdef')
        if (guid[i] !== '-' && guid[i] !== digit)
          expect(subjectOf(guid.slice(0, i) + digit + guid.slice(i + 1))).toBeUndefined();
  });

  it('are stable: a change here would cut every issued file off from its findings', () => {
    expect(topicGuid({ kind: 'finding', key: '0123456789abcdef' })).toMatchInlineSnapshot(
      `"01234567-89ab-8cde-bf86-5862db048b37"`,
    );
    expect(topicGuid({ kind: 'penetration', key: '0123456789ABCDEFGHJK' })).toMatchInlineSnapshot(
      `"00443214-c742-854b-98d7-3e1194ed0d00"`,
    );
    expect(topicGuid({ kind: 'finding', key: 'a key of another form' })).toMatch(VERSION_8);
    expect(partGuid('a', 'viewpoint')).toMatch(VERSION_8);
  });
});
