import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SERVICES } from '../../src/model.js';
import {
  demandOf,
  entryFor,
  type ServiceRow,
  type StrategyChoices,
  type SystemOfDuct,
} from '../../src/strategy/index.js';
import { rating } from '../model-factories.js';

const duct = (changes: Partial<SystemOfDuct> = {}): SystemOfDuct => ({
  system: 'SA',
  systemType: 'AIRCONDITIONING',
  systemNames: [],
  properties: [],
  ratings: { required: null, reached: null },
  serves: null,
  ...changes,
});
const choices = (changes: Partial<StrategyChoices> = {}): StrategyChoices => ({
  edition: [],
  systems: [],
  services: [],
  ...changes,
});

const ESTUARIA = { jurisdiction: 'Estuaria', edition: 'Code 1' };
const KITCHEN: ServiceRow = {
  service: 'kitchenExhaust',
  words: ['kitchen exhaust'],
  wholeWords: ['KX'],
  source: 'a table',
  status: 'unverified',
  defaults: [
    { dampers: 'never', source: 'practice', status: 'unverified', code: null },
    { resists: 'always', source: 'practice', status: 'unverified', code: null },
    { fire: 'both', source: 'a standard', status: 'unverified', code: null },
    { integrity: 60, insulation: 30, source: 'a code', status: 'unverified', code: ESTUARIA },
  ],
};
const SMOKE: ServiceRow = { ...KITCHEN, service: 'smokeExhaust', words: ['smoke'], wholeWords: [], defaults: [] };
const ROWS = [KITCHEN, SMOKE];
const kitchen = duct({ system: 'E1', systemNames: ['Kitchen  EXHAUST level 2'] });

describe('what a run must do', () => {
  it('without a brief it is the default brief', () => {
    expect(demandOf(duct())).toMatchObject({
      ...{ service: null, serviceState: 'noneOfThem', resists: 'whereUndampered', dampers: 'allowed' },
      ...{ integrity: 0, insulation: 0, fire: null },
    });
  });

  it.each([
    ['no system', { system: null }],
    ['a system of no stated type', { systemType: null }],
  ])('%s may be any service', (_, changes) => {
    expect(demandOf(duct(changes), undefined, ROWS)).toMatchObject({ service: null, serviceState: 'unknown' });
  });

  it('comes from the service that its names show, each step with its source', () => {
    const demand = demandOf(kitchen, choices(), ROWS);
    expect(demand).toMatchObject({
      ...{ service: 'kitchenExhaust', serviceState: 'named', dampers: 'never', resists: 'always', fire: 'both' },
      // Those of a code hold only where it does.
      ...{ integrity: 0, insulation: 0 },
    });
    expect(demand.reasons.map(({ says, source, status }) => [says, source, status])).toEqual([
      ['it belongs to system E1 (Kitchen EXHAUST level 2, type AIRCONDITIONING)', 'the model', 'model'],
      ['its name "Kitchen EXHAUST level 2" shows that its service is kitchen exhaust', 'a table', 'unverified'],
      ['it must never have a fire damper', 'practice', 'unverified'],
      ['all of it outside the compartment that it serves must resist fire', 'practice', 'unverified'],
      ['the fire may be inside the duct or outside it', 'a standard', 'unverified'],
    ]);
  });

  it.each([
    [undefined, [], 0],
    ['Estuaria', [], 0],
    ['Estuaria', ['Code 2'], 0],
    ['Another', ['Code 1'], 0],
    [' estuaria', ['Code 2', 'CODE 1'], 60],
  ])('under %s %j it asks for %i minutes of integrity', (jurisdiction, edition, integrity) => {
    const demand = demandOf(kitchen, choices({ jurisdiction, edition }), ROWS);
    expect(demand.integrity).toBe(integrity);
    expect(demand.reasons.some(({ source }) => source === 'a code')).toBe(integrity > 0);
  });

  it('the entry of the brief comes before the change of a service, and that before the default', () => {
    const changed = choices({
      systems: [{ system: 'e1', dampers: 'allowed', integrity: 90 }, { system: 'SA' }],
      services: [{ service: 'kitchenExhaust', dampers: 'never', resists: 'whereUndampered', fire: 'noDefault' }],
    });
    expect(demandOf(kitchen, changed, ROWS)).toMatchObject({
      ...{ service: 'kitchenExhaust', dampers: 'allowed', resists: 'whereUndampered' },
      ...{ fire: null, integrity: 90, insulation: 0 },
    });
    expect(demandOf(kitchen, changed, ROWS).reasons[1]?.says).toContain('entry 1 of the brief');
  });

  it('an entry names a service that no word shows', () => {
    const named = choices({ systems: [{ systemType: 'airconditioning', service: 'kitchenExhaust' }] });
    expect(demandOf(duct(), named, ROWS)).toMatchObject({ service: 'kitchenExhaust', dampers: 'never' });
  });

  it('the brief adds words for a service, and takes them all away', () => {
    const own = choices({ services: [{ service: 'kitchenExhaust', words: ['Wok-Straße'] }] });
    expect(demandOf(duct({ systemNames: ['wokstrasse 3'] }), own, ROWS).service).toBe('kitchenExhaust');
    const off = choices({ services: [{ service: 'kitchenExhaust', byWords: false }] });
    expect(demandOf(kitchen, off, ROWS)).toMatchObject({ service: null, dampers: 'allowed' });
  });

  it('of several services the first of the table counts, in whatever order the names stand', () => {
    const both = ['Smoke from the kitchen exhaust', 'smoke, kitchen exhaust'];
    for (const name of both)
      expect(demandOf(duct({ systemNames: [name] }), undefined, ROWS).service).toBe('kitchenExhaust');
    expect(demandOf(duct({ systemNames: ['smoke', 'kitchen exhaust'] }), undefined, ROWS).service).toBe(
      'kitchenExhaust',
    );
  });

  it('abbreviations must stand alone', () => {
    expect(demandOf(duct({ system: 'KX-02' }), undefined, ROWS).service).toBe('kitchenExhaust');
    expect(demandOf(duct({ system: 'AKX02' }), undefined, ROWS).service).toBeNull();
  });

  it('nothing is known of what a brief that lists systems does not list', () => {
    const listed = choices({ systems: [{ system: 'SA', dampers: 'allowed' }] });
    expect(demandOf(kitchen, listed, ROWS)).toMatchObject({
      ...{ service: null, serviceState: 'unknown', resists: null, dampers: null },
      ...{ integrity: null, insulation: null, fire: null },
    });
  });

  it('a rating that the duct states to need counts where it asks more', () => {
    const stating = (changes: Parameters<typeof rating>[0]) =>
      demandOf(
        duct({
          ratings: { required: rating({ text: 'EI 90', integrity: 90, insulation: 90, ...changes }), reached: null },
        }),
        choices({ systems: [{ system: 'SA', integrity: 60, insulation: 120 }] }),
      );
    expect(stating({})).toMatchObject({ integrity: 90, insulation: 120 });
    expect(stating({}).reasons.at(-1)?.says).toContain('minutes of insulation');
    expect(stating({}).reasons.map(({ says }) => says)).toContain('it states that it must reach "EI 90"');
    expect(stating({ insulation: 'none' })).toMatchObject({ integrity: 90, insulation: 120 });
    expect(stating({ state: 'unreadable', integrity: null, insulation: null })).toMatchObject({ integrity: null });
    expect(stating({ state: 'durationOnly', integrity: null, insulation: null, duration: 240 })).toMatchObject({
      integrity: 240,
      insulation: 240,
    });
  });
});

describe('which entry of the brief holds', () => {
  const property = { set: 'Project_Fire', property: 'Strategy', value: 'smoke' };
  const stated = (value: string) => duct({ properties: [{ ...property, value }] });

  it.each([
    ['a name', { system: ' sa ' }, duct(), 'entry'],
    ['another name', { system: 'RA' }, duct(), 'none'],
    ['no name', { system: 'SA' }, duct({ system: null }), 'unknown'],
    ['a type', { systemType: 'airconditioning' }, duct(), 'entry'],
    ['no type', { systemType: 'EXHAUST' }, duct({ systemType: null }), 'unknown'],
    ['a property', { property }, stated('Smoke'), 'entry'],
    ['another value', { property }, stated('none'), 'none'],
    ['a property that is not stated', { property }, duct(), 'unknown'],
    ['a compartment', { compartment: 'Kitchen' }, duct({ serves: ['Store', 'kitchen'] }), 'entry'],
    ['another compartment', { compartment: 'Kitchen' }, duct({ serves: [] }), 'none'],
    ['a compartment that is not known', { compartment: 'Kitchen' }, duct(), 'unknown'],
  ] as const)('%s', (_, entry, of, is) => {
    expect(entryFor(of, [entry]).is).toBe(is);
  });

  it('is the first that picks the duct', () => {
    expect(entryFor(duct(), [{ system: 'RA' }, { systemType: 'AIRCONDITIONING' }, { system: 'SA' }])).toMatchObject({
      is: 'entry',
      number: 2,
    });
  });

  it('is not known after one that may pick it', () => {
    const entries = [{ property, dampers: 'never' as const }, { system: 'SA' }];
    expect(entryFor(duct(), entries)).toMatchObject({ is: 'unknown', number: 1 });
    expect(entryFor(stated('none'), entries)).toMatchObject({ is: 'entry', number: 2 });
    const { dampers, reasons } = demandOf(duct(), choices({ systems: entries }));
    expect(dampers).toBeNull();
    expect(reasons.at(-1)?.says).toContain('its property Project_Fire.Strategy is not known');
  });
});

it('a model that says less never gets a weaker demand', () => {
  const property = { set: 'P', property: 'Q', value: 'a' };
  const asked = fc.record(
    { dampers: fc.constantFrom('allowed', 'never' as const), integrity: fc.constantFrom(0, 60, 120) },
    { requiredKeys: [] },
  );
  const selector = fc.constantFrom(
    { system: 'SA' },
    { systemType: 'AIRCONDITIONING' },
    { property },
    { compartment: 'K' },
    { system: 'RA' },
  );
  const entries = fc.array(
    fc.tuple(selector, asked).map(([a, b]) => ({ ...a, ...b })),
    { minLength: 1, maxLength: 5 },
  );
  const whole = duct({ properties: [property], serves: ['K'] });
  const losses: Partial<SystemOfDuct>[] = [
    { system: null },
    { systemType: null },
    { properties: [] },
    { serves: null },
  ];
  fc.assert(
    fc.property(entries, fc.subarray(losses, { minLength: 1 }), (systems, gone) => {
      const less = Object.assign({ ...whole }, ...gone) as SystemOfDuct;
      const [before, after] = [whole, less].map((of) => demandOf(of, choices({ systems })));
      // The same, or nothing is known.
      expect([before?.dampers, null]).toContain(after?.dampers);
      expect([before?.integrity, null]).toContain(after?.integrity);
    }),
    { numRuns: 500 },
  );
});

it('every service has words for people', () => {
  for (const service of SERVICES)
    expect(demandOf(duct(), choices({ systems: [{ system: 'SA', service }] })).reasons[2]?.says).not.toContain(service);
});
