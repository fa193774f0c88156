import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { globalIdOfUuid, isGlobalId, uuidOfGlobalId } from '../../src/report/global-id.js';

/**
 * The first row is printed in the IFC documentation (page on GUID compression), the thirteenth is an id of the IDS test
 * files; the others are computed by two implementations of others that agreed.
 */
const VECTORS = [
  ['f70dd363-bfe3-495d-84a0-2c02dcb7d4d2', '3t3TDZl_D9NOIWB0BSjzJI'],
  ['00000000-0000-0000-0000-000000000000', '0000000000000000000000'],
  ['00000000-0000-0000-0000-000000000001', '0000000000000000000001'],
  ['01000000-0000-0000-0000-000000000000', '0100000000000000000000'],
  ['40000000-0000-0000-0000-000000000000', '1000000000000000000000'],
  ['80000000-0000-0000-0000-000000000000', '2000000000000000000000'],
  ['ffffffff-ffff-ffff-ffff-ffffffffffff', '3$$$$$$$$$$$$$$$$$$$$$'],
  ['12345678-9abc-def0-1234-56789abcdef0', '0ID5PuchpUy18qLdYQlDxm'],
  ['6ba7b810-9dad-11d1-80b4-00c04fd430c8', '1hfxWGdQqHqO2q0C1Fr338'],
  ['123e4567-e89b-12d3-a456-426614174000', '0IFaLdw9iIqwHMGcOK5q00'],
  ['550e8400-e29b-41d4-a716-446655440000', '1L3eG0ufj1rASMH6PLH000'],
  ['00112233-4455-6677-8899-aabbccddeeff', '004I8pH5LcTuYPghlCtUx$'],
  ['3fa4e2cc-346b-4ee4-9b73-6dedc3f6e8fd', '0$fEBCD6jEv9jpRUt3zkZz'],
  ['fd4b2f5e-1fc6-49f7-9071-26d90741d985', '3zIozU7yP9zv1n9ja7GTc5'],
] as const;

describe('GlobalIds and UUIDs', () => {
  it.each(VECTORS)('%s is %s', (uuid, globalId) => {
    expect(globalIdOfUuid(uuid)).toBe(globalId);
    expect(globalIdOfUuid(uuid.toUpperCase())).toBe(globalId);
    expect(uuidOfGlobalId(globalId)).toBe(uuid);
  });

  it.each([
    '4000000000000000000000',
    '$$$$$$$$$$$$$$$$$$$$$$',
    '000000000000000000000',
    '00000000000000000000000',
    '00000000000000000000+0',
    '00000000000000000000/0',
    '00000000000000000000=0',
    '00000000000000000000-0',
    '',
  ])('%j is no GlobalId', (text) => {
    expect(isGlobalId(text)).toBe(false);
    expect(() => uuidOfGlobalId(text)).toThrow(RangeError);
  });

  it('and back, for any', () =>
    fc.assert(
      fc.property(fc.uuid({ version: [1, 3, 4, 5, 7, 8] }), (uuid) => uuidOfGlobalId(globalIdOfUuid(uuid)) === uuid),
    ));
});
