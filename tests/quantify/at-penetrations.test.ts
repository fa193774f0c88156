import { describe, expect, it } from 'vitest';
import type { OpeningSubject, Penetration } from '../../src/model.js';
import { atPenetrations } from '../../src/quantify/at-penetrations.js';
import { quantifyChoices } from '../../src/quantify/choices.js';
import type { TestedSystem } from '../../src/rules/index.js';
import { judge } from '../../src/rules/index.js';
import { barrier, crossings, duct, NOT_REQUIRED, wrapped } from '../rules/factories.js';
import { demonstrationBrief } from '../rules/protected.js';
import { rules } from '../shipped-rules.js';

/** An opening that the penetrations share, with so much of it free, mm². */
const openingOf = (free: number, ...penetrations: string[]): OpeningSubject => ({
  ...{ id: 'O-1', model: 'm2', globalId: 'O1', shape: 'rectangular', width: 660, height: 460, from: 'element' },
  ...{ barrier: { model: 'm2', globalId: 'W1' }, penetrations, services: [], areaM2: 0.3036, combined: false },
  ...{ freeAreaM2: free / 1e6, position: [0, 0, 0] },
});

function countedAt(
  penetrations: readonly Penetration[],
  {
    free = 63_600,
    takeoff = {},
    systems = rules.systems,
  }: { free?: number; takeoff?: object; systems?: readonly TestedSystem[] } = {},
) {
  const openings = free < 0 ? [] : [openingOf(free, ...penetrations.map(({ id }) => id))];
  const found = crossings({ penetrations, openings });
  const judgement = judge(found, rules, { brief: demonstrationBrief });
  return atPenetrations({ crossings: found, judgement, systems, choices: quantifyChoices(takeoff) });
}

const shown = ({ drafts }: ReturnType<typeof countedAt>) =>
  drafts.map((one) => [one.material.kind, one.pieces, one.length, one.width, one.lengthM, one.areaM2, one.volumeL]);

describe('what is built at a penetration', () => {
  it('is the parts of the framed wall, worked out by hand', () => {
    // 600 x 400 in an opening 660 x 460 of a wall of 128, two layers of 38, fillets of 12 mm.
    const counted = countedAt([wrapped()]);
    expect(shown(counted)).toEqual([
      // (660·460 − 600·400)·128 = 63 600·128 = 8.1408 l
      ['packing', 1, null, null, null, null, 8.141],
      // Legs of 40, butted: 600 + 80 over and under, 400 beside; two of each on both faces.
      ['angle', 4, 680, null, 2.72, null, null],
      ['angle', 4, 400, null, 1.6, null, null],
      // At most 200 apart, both ends: 680 → 5, 400 → 3; 2·(2·5 + 2·3) = 32.
      ['screw', 32, null, null, null, null, null],
      // Along the duct: 600 → 4, 400 → 3; 2·(2·4 + 2·3) = 28.
      ['screw', 28, null, null, null, null, null],
      // Strips of 100: 600 + 200 over and under, 400 between.
      ['boardCollar', 4, 800, 100, 3.2, 0.32, null],
      ['boardCollar', 4, 400, 100, 1.6, 0.16, null],
      // 20 from their ends, at most 200 apart: 760 → 5, 360 → 3; 2·(2·5 + 2·3) = 32.
      ['screw', 32, null, null, null, null, null],
      // Round layer 3: 2·(600 + 228 + 400 + 228) = 2912, and 100 for the piece; 200 along the duct.
      ['blanket', 2, 3012, 200, 6.024, 1.2048, null],
      // A grid of 200 half a spacing from the edges: 1·3 on 600, 1·2 on 400; 2·(2·3 + 2·2) = 20.
      ['pin', 20, null, null, null, null, null],
      // Round the build-up 2912 twice; 12·12/2 = 72 mm²: 0.4193 l.
      ['sealant', 2, null, null, 5.824, null, 0.419],
      // Round the collar 2·(800 + 600) = 2800 twice: 0.4032 l.
      ['sealant', 2, null, null, 5.6, null, 0.403],
    ]);
    // 1.2048 m² of 38 mm at 128 kg/m³; 2.72 m of 1.813 kg/m.
    expect(counted.drafts.find(({ material }) => material.kind === 'blanket')?.massKg).toBeCloseTo(5.86, 3);
    expect(counted.drafts[1]?.massKg).toBeCloseTo(4.931, 3);
  });

  it('lies against the outside of a casing that goes through', () => {
    // One layer of 40 round 600 x 400: 680 x 480; the casing takes 680·480 − 240 000 = 86 400 mm² of the opening.
    const board = wrapped({
      treatment: { ...wrapped().treatment, kind: 'board', layers: 1 },
      duct: duct({ system: 'SX' }),
      barrier: barrier({ construction: 'masonry' }),
    });
    const found = crossings({ penetrations: [board], openings: [openingOf(110_000, board.id)] });
    const brief = {
      demonstration: true,
      choices: {
        ...demonstrationBrief.choices,
        systems: [
          { system: 'SX', testedSystem: 'demonstration-board', detail: 'through-wall', dampers: 'allowed' as const },
        ],
      },
    };
    const judgement = judge(found, rules, { brief: brief as typeof demonstrationBrief });
    const choices = quantifyChoices({ angleCorners: 'mitred' });
    const counted = shown(atPenetrations({ crossings: found, judgement, systems: rules.systems, choices }));
    // (110 000 − 86 400)·128 = 3.0208 l; mitred angles 680 + 80 and 480 + 80.
    expect(counted[0]).toEqual(['packing', 1, null, null, null, null, 3.021]);
    expect(counted.filter(([kind]) => kind === 'angle').map(([, , length]) => length)).toEqual([760, 560]);
  });

  it('shares what is free in one opening, and bends angles round round ducts', () => {
    const round = { shape: 'circular', width: null, height: null, diameter: 400 } as const;
    const counted = countedAt([
      wrapped({ duct: duct(round) }),
      wrapped({ id: 'P-0002', key: 'key-2', duct: duct(round) }),
    ]);
    const packing = counted.drafts.filter(({ material }) => material.kind === 'packing');
    expect(packing.map(({ volumeL }) => volumeL)).toEqual([4.07, 4.07]);
    // π·400 + 2π·11.110 = 1326.4 (a = 40, t = 3).
    const angles = counted.drafts.filter(({ material }) => material.kind === 'angle');
    expect(angles.map(({ length, pieces }) => [length, pieces])).toEqual([
      [1326.4, 2],
      [1326.4, 2],
    ]);
    // Halves 400 + 200 long and 200 + 100 wide, two on each face.
    const [collar] = counted.drafts.filter(({ material }) => material.kind === 'boardCollar');
    expect([collar?.pieces, collar?.length, collar?.width]).toEqual([4, 600, 300]);
  });

  it('says what it can not count, and why', () => {
    const because = (penetrations: Penetration[], free?: number) =>
      countedAt(penetrations, { ...(free !== undefined && { free }) }).uncounted.map((one) => [
        one.material,
        one.because,
      ]);
    expect(because([wrapped()], -1)).toContainEqual([
      'packing',
      'the models have no opening here, so nobody can tell how much there is to fill',
    ]);
    expect(because([wrapped({ treatment: { ...wrapped().treatment, kind: 'none' } })])).toEqual([
      [null, 'nothing protects the duct here, so nothing is counted for it'],
    ]);
    expect(because([wrapped({ treatment: { ...wrapped().treatment, layers: null } })])).toEqual([
      [null, 'nothing says how many layers protect the duct'],
    ]);
    // Larger than any row of the tables, so neither angle nor build-up is known.
    const large = because([wrapped({ duct: duct({ width: 3700, height: 3700 }) })]);
    expect(large.map(([material]) => material)).toEqual(expect.arrayContaining(['angle', 'localBuildUp']));
  });

  it('counts nothing where nothing is asked', () => {
    expect(countedAt([wrapped({ barrier: barrier({ rating: NOT_REQUIRED }) })])).toEqual({ drafts: [], uncounted: [] });
    expect(countedAt([wrapped({ crossing: 'partial' })])).toEqual({ drafts: [], uncounted: [] });
  });
});
