/** Masses and loads from facts, against the worked hanger and with each fact taken away. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CarriedDuct, DuctProtection } from '../../src/model.js';
import { loadRules } from '../../src/rules/index.js';
import { held, weigh } from '../../src/rules/support-design.js';
import { publishedRodStress, smallerSide, supportLimits } from '../../src/rules/support-limits.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';

const document = (file: string, change: (text: string) => string = (text) => text) => ({
  file,
  text: change(readFileSync(`rules/${file}`, 'utf8')),
});
const { systems, published } = loadRules([document('demonstration-blanket.yaml'), document('published-values.yaml')]);
/** As the worked hanger has it: one layer of 50 mm and 100 kg/m³. */
const system = { ...systems[0]!, layer: { thickness: 50, density: 100 } } as TestedSystem;

const DUCT: CarriedDuct = {
  ...{ model: 'm1', globalId: 'duct', name: 'Duct', shape: 'rectangular', width: 1000, height: 500, diameter: null },
  ...{ way: 'level', sheet: { thickness: 1, from: 'property' }, insulation: null, material: 'steel' },
};
const BLANKET: DuctProtection = { kind: 'blanket', evidence: null, layers: 1, integrity: 120, insulation: 120 };
// 1000 + 2 x 50 + 2 x 100 = 1300 mm of bearer.
const CHOICE = { rod: 'M8', rods: 2, bearer: 'L 40x40x4', bearerBeyond: 100, rodFromSide: 60 } as const;
const CHOSEN = { rod: 'M8', bearer: 'L 40x40x4' } as const;

describe('the worked hanger from facts', () => {
  const weighed = weigh(DUCT, BLANKET, system, CHOICE, published);
  it('weighs the same', () => {
    expect(weighed.sheet?.perMetre).toBeCloseTo(23.55, 9);
    expect(weighed.protection?.perMetre).toBeCloseTo(16, 9);
    expect(weighed.perMetre).toBeCloseTo(39.55, 9);
    expect([weighed.sheet?.from, weighed.protection?.from]).toEqual(['model', 'system']);
  });
  it('is stressed the same, and may be as far apart', () => {
    const own = held(weighed, CHOSEN, CHOICE, 1200, 6);
    expect(own.bearerLength).toBe(1300);
    expect(own.load).toBeCloseTo(496.4, 0);
    expect(own.rodLoad).toBeCloseTo(248.2, 1);
    expect(own.rodStress).toBeCloseTo(6.78, 2);
    expect(own.spacingByStress! / 1000).toBeCloseTo(1.052, 3);
    // 496.4 N over 1220 mm between the rods, W of 1,553 mm³.
    expect(own.bearerStress).toBeCloseTo((496.35 * 1220) / 8 / 1553, 1);
  });
});

describe('what is not known is left out', () => {
  const own = (duct: Partial<CarriedDuct>, more: Partial<DuctProtection> = {}, choice: object = {}, by = system) => {
    const weighed = weigh({ ...DUCT, ...duct }, { ...BLANKET, ...more }, by, { ...CHOICE, ...choice }, published);
    return held(weighed, CHOSEN, { ...CHOICE, ...choice }, 1200, 6);
  };
  it.each<[string, Parameters<typeof own>]>([
    ['how thick the sheet of stainless steel is', [{ material: 'stainless', sheet: null }]],
    [
      'how thick the sheet of a round duct is',
      [{ shape: 'circular', diameter: 400, width: null, height: null, sheet: null }],
    ],
    ['what the duct is made of', [{ material: 'unknown' }]],
    ['how heavy its insulation is', [{ insulation: { thickness: 50, from: 'layers' } }]],
    [
      'how thick its insulation is',
      [{ insulation: { thickness: null, from: 'layers' } }, {}, { insulationDensity: 40 }],
    ],
    ['how many layers there are', [{}, { layers: null }]],
    ['what its protection is', [{}, { kind: 'unknown' }]],
    ['how thick one layer is', [{}, {}, {}, { ...system, layer: undefined } as TestedSystem]],
    ['how far the bearer reaches', [{}, {}, { bearerBeyond: undefined }]],
  ])('%s', (_what, given) => {
    const { load, rodStress, bearerStress, spacingByStress } = own(...given);
    expect([load, rodStress, bearerStress, spacingByStress]).toEqual([undefined, undefined, undefined, undefined]);
  });
  it('the published thickness of galvanised sheet is named as such', () => {
    const { sheet } = weigh({ ...DUCT, sheet: null }, BLANKET, system, CHOICE, published);
    expect(sheet).toMatchObject({ thickness: 0.8, from: 'published' });
  });
  it('insulation counts, and the protection goes round it', () => {
    const insulated = { ...DUCT, insulation: { thickness: 50, from: 'layers' as const } };
    const weighed = weigh(insulated, BLANKET, system, { ...CHOICE, insulationDensity: 40 }, published);
    expect(weighed.insulation?.perMetre).toBeCloseTo(0.16 * 40, 9);
    expect(weighed.protection?.perMetre).toBeCloseTo((1.2 * 0.7 - 1.1 * 0.6) * 100, 9);
  });
});

describe('limits', () => {
  it('go by the time, and end with the last that is told', () => {
    const stress = (minutes: number | undefined) => supportLimits(system, DUCT, minutes).rodStressAtMost;
    expect([30, 60, 61, 120, 121, undefined].map(stress)).toEqual([9, 9, 6, 6, undefined, undefined]);
    expect([60, 120, 180].map((minutes) => publishedRodStress(published, minutes))).toEqual([9, 6, undefined]);
    expect(publishedRodStress([], 60)).toBeUndefined();
  });
  it('a side that is not known is not the smaller one', () => {
    const side = (width: number | null, height: number | null, diameter: number | null = null) =>
      smallerSide({ width, height, diameter } as Parameters<typeof smallerSide>[0]);
    expect([side(400, 300), side(300, 400), side(null, null, 250)]).toEqual([300, 300, 250]);
    expect([side(400, null), side(null, 300), side(null, null)]).toEqual([undefined, undefined, undefined]);
  });

  it('of risers go by the smaller side', () => {
    const riser = (width: number) => supportLimits(system, { ...DUCT, width }, 120).riserSupportAtMost;
    expect([riser(300), riser(900)]).toEqual([2400, 4000]);
    expect(supportLimits(system, undefined, 120).riserSupportAtMost).toBeUndefined();
  });
});

describe('a tested system that contradicts itself is refused', () => {
  it.each([
    ['rodStress: [{ upTo: 60, stress: 9 }, { upTo: 60, stress: 6 }]', 'steps must ascend by minutes'],
    ['rodStress: [{ upTo: 60, stress: 6 }, { upTo: 120, stress: 9 }]', 'steel bears no more for longer'],
  ])('%s', (steps, message) => {
    const wrong = document('demonstration-blanket.yaml', (text) => text.replace(/rodStress: .*/, steps));
    expect(() => loadRules([wrong])).toThrow(message);
  });
  it('a bearer that nobody knows', () => {
    const wrong = document('demonstration-blanket.yaml', (text) => text.replace('[L 40x40x4,', '[L 41x41x4,'));
    expect(() => loadRules([wrong])).toThrow('no equal angle');
  });
});
