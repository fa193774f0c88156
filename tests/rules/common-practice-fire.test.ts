import {
  damper as aDamper,
  barrier,
  crossings,
  gaps,
  NO_GAPS,
  NOT_REQUIRED,
  penetration,
  treated,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
import { ruleCases } from './rule-cases.js';

const one = (changes: Parameters<typeof penetration>[0] = {}) => crossings({ penetrations: [penetration(changes)] });
const inWall = (wall: Parameters<typeof barrier>[0], changes: Parameters<typeof penetration>[0] = {}) =>
  one({ barrier: barrier(wall), ...changes });

const damper = (purpose: 'fire' | 'control' | 'unknown') => [aDamper({ purpose, rating: UNSTATED })];
ruleCases('damper-or-protection', [
  ...(['damper', 'blanket', 'board', 'fireResistingDuct', 'both'] as const).map((kind) => ({
    why: `treated by ${kind}`,
    crossings: one(treated(kind)),
    findings: [{ outcome: 'cantTell' as const, wouldBe: 'passed' as const, measured: kind, missing: [] }],
  })),
  { why: 'nothing there', crossings: one(treated('none')), findings: [{ outcome: 'failed', measured: 'none' }] },
  {
    why: 'nothing to be seen',
    crossings: one(),
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['penetration.treatment'] }],
  },
  {
    why: 'a volume control damper',
    crossings: one({ dampers: damper('control') }),
    findings: [{ outcome: 'cantTell', missing: ['penetration.treatment'] }],
  },
  {
    why: 'a damper of unknown purpose',
    crossings: one({ dampers: damper('unknown') }),
    findings: [{ outcome: 'cantTell', missing: ['penetration.damper.purpose'] }],
  },
  { why: 'not rated', crossings: inWall({ rating: NOT_REQUIRED }), findings: [{ outcome: 'inapplicable' }] },
]);

const wouldPass = { outcome: 'cantTell', wouldBe: 'passed' } as const;
ruleCases('gap-within-range', [
  {
    why: 'wide below, narrow on the right, exactly on the limits elsewhere',
    crossings: one({ gaps: gaps({ top: 50, bottom: 70, left: 10, right: 9.8, min: 9.8, max: 70 }) }),
    findings: [
      // Contract's own example: a gap of 70 mm below a 400 mm duct at z = 2000 is at z = 2000 - 200 - 35.
      {
        outcome: 'failed',
        side: 'bottom',
        measured: 70,
        limit: { atLeast: 10, atMost: 50 },
        margin: -20,
        at: [3000, 0, 1765],
      },
      { outcome: 'failed', side: 'right', measured: 9.8, margin: -0.2, at: [3304.9, 0, 2000] },
      { ...wouldPass, margin: 0 },
      { ...wouldPass, margin: 0 },
    ],
  },
  {
    why: 'a duct that cuts into the edge of its opening',
    crossings: one({ gaps: gaps({ top: -5, min: -5 }) }),
    findings: [{ outcome: 'failed', side: 'top', measured: -5, margin: -15 }, wouldPass, wouldPass, wouldPass],
  },
  {
    why: 'to an outline that may be sheet or insulation: the sheet lies no nearer to the edge',
    crossings: one({ gapsTo: 'unknown', gaps: gaps({ top: 5, bottom: 70, min: 5, max: 70 }) }),
    findings: [
      { outcome: 'failed', side: 'bottom', measured: 70 },
      { outcome: 'cantTell', side: 'top', missing: ['penetration.gapsTo'] },
      { outcome: 'cantTell', wouldBe: null, missing: ['penetration.gapsTo'] },
      { outcome: 'cantTell', wouldBe: null, missing: ['penetration.gapsTo'] },
    ],
  },
  {
    why: 'to insulation whose thickness nobody knows',
    crossings: one({ gapsTo: 'insulation' }),
    findings: Array.from({ length: 4 }, () => ({
      outcome: 'cantTell' as const,
      wouldBe: null,
      missing: ['duct.wall.insulation'],
    })),
  },
  {
    why: 'round: the narrowest and the widest',
    crossings: one({ gaps: { ...NO_GAPS, min: 20, max: 64 } }),
    findings: [
      { outcome: 'failed', side: null, measured: 64, margin: -14, at: [3000, 0, 2000] },
      { ...wouldPass, measured: 20 },
    ],
  },
  {
    why: 'gaps that could not be measured',
    crossings: one({ gaps: NO_GAPS }),
    findings: [
      { outcome: 'cantTell', wouldBe: null, missing: ['gap.value'] },
      { outcome: 'cantTell', wouldBe: null, missing: ['gap.value'] },
    ],
  },
  {
    why: 'no opening',
    crossings: one({ opening: null, gaps: NO_GAPS }),
    findings: [{ outcome: 'inapplicable' }, { outcome: 'inapplicable' }],
  },
]);

ruleCases('skew-limited', [
  { why: 'square', crossings: one(), findings: [{ ...wouldPass, measured: 0, margin: 10 }] },
  { why: '25° off', crossings: one({ skew: 25 }), findings: [{ outcome: 'failed', measured: 25, margin: -15 }] },
  { why: 'a hundredth too much', crossings: one({ skew: 10.01 }), findings: [{ outcome: 'failed', margin: -0.01 }] },
  {
    why: 'not rated',
    crossings: inWall({ rating: NOT_REQUIRED }, { skew: 25 }),
    findings: [{ outcome: 'inapplicable' }],
  },
  {
    why: 'not known whether rated',
    crossings: inWall({ rating: UNREADABLE }),
    findings: [{ outcome: 'cantTell', wouldBe: null }],
  },
]);

const pair = (distance: number, wall = barrier(), back = distance) =>
  crossings({
    penetrations: [
      penetration({ barrier: wall, neighbours: [{ penetration: 'P-0002', distance }] }),
      penetration({
        id: 'P-0002',
        key: 'key-2',
        barrier: wall,
        elements: [{ model: 'm1', globalId: 'D2' }],
        position: [4000, 0, 2000],
        neighbours: [{ penetration: 'P-0001', distance: back }],
      }),
    ],
  });
// EN 1366-2: dampers in separate ducts at least 200 mm apart, from memory; reference case: 199 mm fails.
ruleCases('separation', [
  {
    why: '199 mm, once for the pair',
    crossings: pair(199),
    findings: [
      {
        outcome: 'failed',
        measured: 199,
        margin: -1,
        at: [3500, 0, 2000],
        subject: {
          type: 'penetration',
          id: 'P-0001',
          elements: [
            { model: 'm1', globalId: 'D1' },
            { model: 'm1', globalId: 'D2' },
            { model: 'm2', globalId: 'W1' },
          ],
        },
      },
    ],
  },
  { why: '200 mm', crossings: pair(200), findings: [{ ...wouldPass, margin: 0 }] },
  {
    why: 'the smaller where the two differ',
    crossings: pair(240, barrier(), 150),
    findings: [{ outcome: 'failed', measured: 150 }],
  },
  { why: 'not rated', crossings: pair(80, barrier({ rating: NOT_REQUIRED })), findings: [{ outcome: 'inapplicable' }] },
  {
    why: 'rating not known',
    crossings: pair(80, barrier({ rating: UNSTATED })),
    findings: [{ outcome: 'cantTell', missing: ['barrier.rating'] }],
  },
]);
