/** What is built by the shipped demonstration details (invented), read off their documents by hand for a few ducts. */
import { describe, expect, it } from 'vitest';
import type { BuiltPart } from '../../src/model.js';
import { builtAs } from '../../src/rules/built-parts.js';
import type { DuctSize } from '../../src/rules/size-value.js';
import { shippedRules } from './rule-cases.js';

function built(systemId: string, detailId: string | undefined, size: DuctSize) {
  const system = shippedRules.systems.find(({ id }) => id === systemId)!;
  return builtAs(
    system,
    system.details.find(({ id }) => id === detailId),
    size,
  );
}
const partOf = <P extends BuiltPart['part']>(parts: readonly BuiltPart[], part: P) =>
  parts.find((one): one is Extract<BuiltPart, { part: P }> => one.part === part)!;
const rectangular = (width: number, height: number): DuctSize => ({ shape: 'rectangular', width, height });

describe('what is built', () => {
  it('has every part in the order of the work', () => {
    const { parts, ...rest } = built('demonstration-blanket', 'framed-wall', rectangular(600, 300));
    expect(parts.map(({ part }) => part)).toEqual(['packing', 'angle', 'boardCollar', 'localBuildUp', 'sealant']);
    expect(rest).toEqual({ layerThickness: 38, protection: 'blanket', gapDatum: 'stopsAtFace', faces: 'both' });
    expect(partOf(parts, 'angle')).toEqual({
      ...{ part: 'angle', source: 'common practice, no source', faces: 'both', sides: 'all', leg: 40, thickness: 3 },
      intoBarrier: { spacing: 200, type: '8 gauge x 50 mm, into plasterboard', reachesFraming: false },
      intoDuct: { spacing: 200, type: 'self-drilling screws or steel rivets', reachesFraming: null },
    });
    expect(partOf(parts, 'boardCollar')).toMatchObject({
      ...{ material: 'calcium silicate', width: 100, thickness: 25, drilledFromEnd: { atLeast: 20, atMost: 25 } },
      intoBarrier: { spacing: 200 },
    });
    expect(partOf(parts, 'sealant')).toMatchObject({ at: ['blanketToBoard', 'boardToBarrier'], depth: null });
  });

  // Rows of the document: longestSide to 600, 1200, 3600; diameter to 600, 1200.
  it.each([
    [rectangular(600, 600), 40, 200],
    [rectangular(600.1, 100), 40, 300],
    [rectangular(400, 1200), 40, 300],
    [rectangular(3600, 1000), 50, 600],
    [rectangular(3600.1, 1000), null, null],
    [{ shape: 'circular', diameter: 600 }, 40, 200],
    [{ shape: 'circular', diameter: 1201 }, null, null],
    [{ shape: 'unknown' }, null, null],
    [{}, null, null],
  ])('goes by the tables of its document: %j', (size, leg, length) => {
    const { parts } = built('demonstration-blanket', 'framed-wall', size);
    expect(partOf(parts, 'angle').leg).toBe(leg);
    expect(partOf(parts, 'localBuildUp').length).toBe(length);
    // A plain number holds for every size.
    expect(partOf(parts, 'boardCollar').width).toBe(100);
  });

  it('is all on one face where the detail is', () => {
    const { parts, faces } = built('demonstration-blanket', 'shaft-wall', rectangular(600, 400));
    expect(faces).toBe('one');
    expect(parts.map((part) => part.faces)).toEqual(parts.map(() => 'one'));
  });

  it('says what goes through, and where no fastener may go through the duct', () => {
    expect(built('demonstration-board', 'through-wall', rectangular(600, 400)).gapDatum).toBe('passesThrough');
    const own = built('demonstration-duct', 'stud-wall', rectangular(600, 400));
    expect(own.protection).toBe('fireResistingDuct');
    expect(partOf(own.parts, 'angle').intoDuct).toBeNull();
  });

  it('is nothing where no detail is known', () => {
    expect(built('demonstration-blanket', undefined, rectangular(600, 400))).toMatchObject({
      ...{ parts: [], gapDatum: null, faces: null },
    });
  });
});
