/** A take-off made by hand, with something in every list. */
import type { Stock } from '../../src/quantify/cutting/types.js';
import { putTogether } from '../../src/quantify/put-together.js';
import type { Takeoff } from '../../src/quantify/takeoff.js';
import { takeoffChoices } from '../../src/rules/takeoff-choices.js';
import { ANGLE, anItem, BLANKET, PIN, SEALANT } from './made-items.js';

const ROLL: Stock = { id: 'roll 7320 x 610', form: 'roll', length: 7320, width: 610, kerf: 0 };
const BAR: Stock = { id: 'bar 6000', form: 'bar', length: 6000, kerf: 3 };

const PRICES = {
  currency: 'EUR',
  prices: [
    { of: 'blanket', per: 'roll', price: 180 },
    { of: 'blanket', per: 'm2', price: 38.5 },
    { of: 'pin', per: 'piece', price: 0.12 },
  ],
  rates: [{ of: 'blanket', per: 'm2', hours: 0.4, pricePerHour: 65 }],
};

export interface Made {
  /** In place of every name that a model, a brief or a document gives. */
  readonly name?: string | undefined;
  readonly prices?: boolean | undefined;
}

export function aTakeoff({ name, prices = true }: Made = {}): Takeoff {
  const named = (usual: string): string => name ?? usual;
  const given = { source: named('clause 4.2'), system: named('KX') };
  return putTogether(
    {
      materials: [BLANKET, PIN, SEALANT, ANGLE].map((one) => ({ ...one, name: named(one.name) })),
      storeys: [
        { globalId: 'storey-1', name: named('Level 1'), elevation: 0 },
        { globalId: 'storey-2', name: named('Level 2'), elevation: 3000 },
      ],
      items: [
        {
          ...anItem({ id: 'Q-00001', material: BLANKET.id, ...given }),
          ...{ what: named('layer 1, round the duct'), pieces: 3, length: 2200, width: 610 },
          ...{ lengthM: 6.6, areaM2: 4.026, massKg: 19.582, element: { model: 'm1', globalId: 'duct-1' } },
        },
        {
          ...anItem({ id: 'Q-00002', material: BLANKET.id, run: 'R-001', ...given, storey: 'storey-2' }),
          ...{ what: 'layer 1, bend', pieces: 1, length: 605.5, width: 610, lengthM: 0.606, areaM2: 0.3694 },
        },
        { ...anItem({ id: 'Q-00003', material: PIN.id, ...given }), what: 'on the underside', pieces: 48 },
        {
          ...anItem({
            id: 'Q-00004',
            material: SEALANT.id,
            ...given,
            penetration: 'P-0002',
            storey: null,
            system: null,
          }),
          ...{ what: 'bead at face A', pieces: 4, lengthM: 3.2, volumeL: 0.701 },
        },
        {
          ...anItem({ id: 'Q-00005', material: SEALANT.id, ...given }),
          what: 'bead at face B',
          pieces: 4,
          lengthM: 3.2,
        },
        {
          ...anItem({ id: 'Q-00006', material: ANGLE.id, ...given }),
          ...{ what: 'face A, along the top', pieces: 2, length: 680, width: null, lengthM: 1.36, massKg: 1.211 },
        },
      ],
      uncounted: [
        ...['P-0001', 'P-0002'].map((penetration) => ({
          ...{ penetration, run: null, storey: 'storey-1', system: named('KX'), material: 'screw' as const },
          ...{
            what: named('screws through the angles'),
            because: named('the document gives no spacing; its owner can say it'),
          },
        })),
        {
          ...{ penetration: null, run: 'R-001', storey: null, system: null, material: null },
          ...{ what: 'protection', because: 'no tested system is known; the brief can say it' },
        },
      ],
      cutting: [
        {
          material: BLANKET.id,
          plan: {
            patterns: [
              {
                stock: ROLL,
                times: 1,
                cuts: [0, 2200, 4400].map((x) => ({ x, y: 0, length: 2200, width: 610, part: 'P1', turned: false })),
                offcuts: [{ x: 6600, y: 0, length: 720, width: 610, kept: true }],
              },
              {
                stock: ROLL,
                times: 1,
                cuts: [{ x: 0, y: 0, length: 610, width: 605.5, part: 'P2', turned: true }],
                offcuts: [{ x: 610, y: 0, length: 6710, width: 610, kept: false }],
              },
            ],
            ...{ used: [{ stock: ROLL, pieces: 2 }], bought: 14_640, lowerBound: 14_640 },
            ...{ boundHoldsFor: 'every plan', gap: 0, waste: 0.123, method: 'by hand' },
          },
          parts: [
            { part: 'P1', length: 2200, width: 610, count: 3, lengths: 1, items: ['Q-00001'] },
            { part: 'P2', length: 605.5, width: 610, count: 1, lengths: 1, items: ['Q-00002'] },
          ],
        },
        {
          material: ANGLE.id,
          plan: {
            patterns: [
              {
                stock: BAR,
                times: 1,
                cuts: [0, 343, 686, 1029].map((x) => ({ x, y: 0, length: 340, part: 'P1', turned: false })),
                offcuts: [{ x: 1372, y: 0, length: 4628, kept: true }],
              },
            ],
            ...{ used: [{ stock: BAR, pieces: 1 }], bought: 6000, lowerBound: 5900 },
            ...{ boundHoldsFor: 'plans of three cutting stages', gap: 0.017, waste: 0.001, method: 'by hand' },
          },
          // Two lengths for each of two pieces.
          parts: [{ part: 'P1', length: 340, width: null, count: 4, lengths: 2, items: ['Q-00006'] }],
        },
      ],
      allowances: [
        {
          key: 'choices.takeoff.kerf',
          value: 3,
          says: 'mm that one cut takes away',
          from: 'common practice, no source',
        },
        { key: 'takeoff.angleCorners', value: 'mitred', says: named('how angles meet'), from: 'brief' },
      ],
      packLitres: 0.6,
    },
    prices ? takeoffChoices.parse(PRICES) : undefined,
  );
}
