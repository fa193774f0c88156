/** Room beside ducts over their length: 76 mm of blanket and 50 mm for hands take 126 mm. */
import { expect } from 'vitest';
import type { Crossings } from '../../src/model.js';
import { clearance, compartment, crossings, duct, run, stretch, stretchPart, wrapped } from './factories.js';
import { demonstrationBrief } from './protected.js';
import { type RuleCase, ruleCases } from './rule-cases.js';

const BLANKET = stretchPart().protection;
const BARE = { ...BLANKET, kind: 'none' as const };
const UNTOLD = { ...BLANKET, kind: 'unknown' as const };

function beside(
  clearances: Parameters<typeof clearance>[0][],
  protection: typeof BLANKET = BLANKET,
  part: Parameters<typeof stretchPart>[0] = {},
): Crossings {
  const parts = [stretchPart({ ...part, protection })];
  return crossings({
    penetrations: [wrapped()],
    runs: [run({ stretches: [stretch({ parts, clearances: clearances.map((one) => clearance(one)) })] })],
    compartments: [compartment()],
  });
}
const brief = demonstrationBrief;
const PIPE = { what: 'service', kind: 'pipe', name: 'Pipe', construction: null } as const;
const withFlanges = { ...brief, choices: { ...brief.choices, flangeHeight: 20 } };

ruleCases('room-for-protection', [
  {
    why: 'room enough, and nobody tested how much it is',
    ...{ crossings: beside([{ distance: 126 }]), brief },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: 126, limit: { atLeast: 126 } }],
  },
  {
    why: 'a pipe too near',
    ...{ crossings: beside([{ obstacle: PIPE, distance: 100, side: 'left' }]), brief },
    findings: [
      {
        ...{ outcome: 'failed', measured: 100, margin: -26, side: 'left' },
        message:
          "Pipe stands 100 mm left of Duct 1 over 2500 mm; Illustrative blanket A and the hands that put it on need 126 mm (76 mm of protection, 0 mm of the other duct's, flanges of 0 mm, working room of 50 mm): 26 mm are missing.",
        remedy: 'Move Duct 1 to the right by 26 mm, or move Pipe.',
      },
    ],
  },
  {
    why: 'beside a riser, where people tell sides by the plan',
    crossings: beside([{ obstacle: PIPE, distance: 100, side: 'top' }], BLANKET, { from: [0, 0, 0], to: [0, 0, 3000] }),
    brief,
    findings: [
      {
        ...{ outcome: 'failed', measured: 100, side: 'top' },
        message: expect.stringContaining('Pipe stands 100 mm north of Duct 1 over 2500 mm'),
        remedy: 'Move Duct 1 to the south by 26 mm, or move Pipe.',
      },
    ],
  },
  {
    why: 'flanges that the brief knows of take room too',
    ...{ crossings: beside([{ obstacle: PIPE, distance: 145.9 }]), brief: withFlanges },
    findings: [{ outcome: 'failed', limit: { atLeast: 146 }, remedy: 'Lower Duct 1 by 0.1 mm, or move Pipe.' }],
  },
  {
    why: 'the brief asks for more room for hands',
    crossings: beside([{ obstacle: PIPE, distance: 175.9 }]),
    brief: { ...brief, choices: { ...brief.choices, room: { working: 100 } } },
    findings: [{ outcome: 'failed', limit: { atLeast: 176 } }],
  },
  {
    why: 'two wrapped ducts are one place, and each needs its own blanket',
    crossings: beside([
      {
        obstacle: { what: 'duct', kind: 'segment', name: 'Duct 2', run: 'R-001', protection: BLANKET },
        distance: 201.9,
      },
    ]),
    brief,
    findings: [{ outcome: 'failed', limit: { atLeast: 202 } }],
  },
  {
    why: 'beside a fire-resisting duct, which is of one layer, however many are declared',
    crossings: beside([
      {
        obstacle: {
          ...{ what: 'duct', kind: 'segment', name: 'Duct 2', run: 'R-001' },
          protection: { ...BLANKET, kind: 'fireResistingDuct', layers: 2 },
        },
        distance: 163.9,
      },
    ]),
    brief,
    findings: [{ outcome: 'failed', limit: { atLeast: 164 } }],
  },
  {
    why: 'the blanket may be in what is drawn',
    ...{ crossings: beside([{ obstacle: PIPE, distance: 60, from: 'drawn', outline: 'unknown' }]), brief },
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['duct.wall.outline'] }],
  },
  {
    why: 'nobody says how many layers: said of the nearest alone',
    crossings: beside([{ obstacle: PIPE, distance: 60 }, { distance: 80 }], { ...BLANKET, layers: null }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['penetration.treatment.layers'] }],
  },
  { why: 'nothing to put on', ...{ crossings: beside([{}], BARE), brief }, findings: [{ outcome: 'inapplicable' }] },
]);

ruleCases('three-sided-detail-tested', [
  {
    why: 'tight under concrete, as tested',
    ...{ crossings: beside([{ distance: 10 }]), brief },
    findings: [{ outcome: 'passed', measured: true }],
  },
  {
    why: 'the same without the demonstration brief proves nothing',
    ...{ crossings: beside([{ distance: 10 }]), brief: { ...brief, demonstration: false } },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'a gap wider than tested',
    ...{ crossings: beside([{ distance: 10.1 }]), brief },
    findings: [{ outcome: 'failed', measured: false }],
  },
  {
    why: 'against a stud wall',
    crossings: beside([{ distance: 5, side: 'right', obstacle: { kind: 'wall', construction: 'steelStud' } }]),
    brief,
    findings: [{ outcome: 'failed' }],
  },
  {
    why: 'nothing tells what it is built of',
    ...{ crossings: beside([{ distance: 5, obstacle: { construction: 'unknown' } }]), brief },
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['barrier.construction'] }],
  },
  {
    why: 'in a corner two sides stay open',
    crossings: beside([
      { distance: 5 },
      { distance: 6, side: 'left', obstacle: { globalId: 'W9', kind: 'wall', name: 'Wall' } },
    ]),
    brief,
    findings: [{ outcome: 'failed' }, { outcome: 'failed' }],
  },
  {
    why: 'a pipe is nothing to lie against',
    ...{ crossings: beside([{ distance: 5, obstacle: PIPE }]), brief },
    findings: [{ outcome: 'inapplicable' }],
  },
]);

/** The golden case of NFPA 96: 300 mm from what burns, no enclosure, no listed wrap. */
function kitchen(jurisdiction: string, edition: string, limit: number): RuleCase[] {
  const by = (protection: typeof BLANKET, ...clearances: Parameters<typeof clearance>[0][]): Crossings => {
    const found = beside(clearances, protection);
    const exhaust = duct({ system: 'Kitchen exhaust', run: 'R-001' });
    return { ...found, penetrations: [wrapped({ duct: exhaust })], runs: found.runs };
  };
  const choices = { ...brief.choices, systems: [], jurisdiction, edition: [edition] };
  const burning = { obstacle: { ...PIPE, name: 'Joist', combustible: true } };
  const under = { brief: { ...brief, choices } };
  return [
    {
      why: 'too near to a timber joist',
      ...{ crossings: by(BARE, { ...burning, distance: Math.min(300, limit - 0.1) }), ...under },
      findings: [{ outcome: 'failed', limit: { atLeast: limit } }],
    },
    {
      why: 'far enough',
      ...{ crossings: by(BARE, { ...burning, distance: limit }), ...under },
      findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
    },
    {
      why: 'whether it is protected is not known',
      ...{ crossings: by(UNTOLD, { ...burning, distance: limit - 1 }), ...under },
      findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['penetration.treatment'] }],
    },
    {
      why: 'of two elements nothing tells whether they burn: said once',
      crossings: by(
        BARE,
        { obstacle: { combustible: null } },
        { obstacle: { globalId: 'S2', combustible: null }, distance: 90 },
      ),
      ...under,
      findings: [{ outcome: 'cantTell', missing: ['room.combustible'] }, { outcome: 'inapplicable' }],
    },
    {
      why: 'wrapped',
      ...{ crossings: by(BLANKET, { ...burning, distance: 100 }), ...under },
      findings: [{ outcome: 'inapplicable' }],
    },
  ];
}
ruleCases('us-kitchen-exhaust-clear-of-combustibles', kitchen('United States', 'NFPA 96', 457));
ruleCases('by-kitchen-exhaust-clear-of-combustibles', kitchen('Bavaria', 'FeuV', 400));
ruleCases('au-kitchen-exhaust-clear-of-combustibles', kitchen('Australia', 'AS 1668', 300));
