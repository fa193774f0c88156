import { describe, expect, it } from 'vitest';
import type { Crossings, Finding, Outcome } from '../../src/model.js';
import { CAUTIONS } from '../../src/report/build-report.js';
import { penetrationOutcome } from '../../src/report/penetration-outcome.js';
import { NO_CHOICES, run } from '../model-factories.js';
import {
  aBarrier,
  aDuct,
  aFinding,
  aModel,
  aPenetration,
  aReport,
  type Check,
  crossingsOf,
  onBarrier,
  onPenetration,
} from './factories.js';

const result = (check: Check, outcome: Outcome, more: Partial<Finding> = {}): Finding =>
  aFinding(check, { outcome, subject: onPenetration(1), ...more });

describe('the outcome of a penetration', () => {
  const cases: readonly [why: string, results: Finding[], outcome: Outcome][] = [
    ['nothing was checked', [], 'untested'],
    ['a fire check passed', [result('gap', 'passed')], 'passed'],
    ['only a check about the model passed, which proves nothing about fire', [result('opening', 'passed')], 'untested'],
    ['no fire check applies', [result('opening', 'passed'), result('gap', 'inapplicable')], 'inapplicable'],
    [
      'one fire check passed, another does not apply',
      [result('gap', 'passed'), result('treatment', 'inapplicable')],
      'passed',
    ],
    ['a limit is met that proves nothing', [result('gap', 'cantTell', { wouldBe: 'passed' })], 'cantTell'],
    ['one thing can not be told', [result('gap', 'passed'), result('treatment', 'cantTell')], 'cantTell'],
    ['one thing was not tested', [result('gap', 'passed'), result('treatment', 'untested')], 'untested'],
    [
      'failed weighs most',
      [result('gap', 'passed'), result('treatment', 'cantTell'), result('opening', 'failed')],
      'failed',
    ],
    [
      'the rating of its barrier is not known',
      [result('gap', 'passed'), result('rating', 'cantTell', { subject: onBarrier('wall-1') })],
      'cantTell',
    ],
    [
      'another barrier fails',
      [result('gap', 'passed'), result('rating', 'failed', { subject: onBarrier('wall-2') })],
      'passed',
    ],
    [
      'duct ends elsewhere on its barrier can not be told',
      [
        result('gap', 'passed'),
        result('rating', 'cantTell', {
          subject: {
            type: 'barrier',
            id: 'wall-1',
            elements: [...onBarrier('wall-1').elements, { model: 'm1', globalId: 'end' }],
          },
        }),
      ],
      'passed',
    ],
    [
      'its opening fails',
      [
        result('gap', 'passed'),
        result('opening', 'failed', {
          subject: { type: 'opening', id: 'opening-1', elements: [{ model: 'm2', globalId: 'opening-1' }] },
        }),
      ],
      'failed',
    ],
    [
      'its duct fails',
      [
        result('gap', 'passed'),
        result('treatment', 'failed', {
          subject: { type: 'duct', id: 'duct-1', elements: [{ model: 'm1', globalId: 'duct-1' }] },
        }),
      ],
      'failed',
    ],
    [
      'the models together can not be told',
      [
        result('gap', 'passed'),
        result('rating', 'cantTell', { subject: { type: 'model', id: 'federation', elements: [] } }),
      ],
      'passed',
    ],
  ];
  it.each(cases)('%s', (_, results, outcome) => {
    const report = aReport({ findings: results });
    expect(penetrationOutcome(report, 'P-0001')).toBe(outcome);
    expect(report.summary.penetrationOutcomes[outcome]).toBe(1);
  });

  it('counts results that are not listed, when they are given', () => {
    const parts = { findings: [], unlisted: [result('gap', 'passed')] };
    expect(aReport(parts).penetrations[0]?.outcome).toBe('passed');
    expect(aReport(parts).findings).toEqual([]);
  });

  it('is never passed when results were left out and are not given', () => {
    const report = aReport({ unlisted: [result('gap', 'passed')], results: undefined });
    expect(report.penetrations[0]?.outcome).toBe('cantTell');
  });

  it('takes in the barrier as a whole, by any of its leaves', () => {
    const barrier = aBarrier({ leaves: [{ model: 'm2', globalId: 'leaf-2' }] });
    const report = aReport({
      penetrations: [aPenetration(1, { barrier })],
      findings: [result('rating', 'failed', { subject: onBarrier('leaf-2') })],
    });
    expect(report.penetrations[0]?.outcome).toBe('failed');
  });

  it('lets a finding on two neighbours count for both, and for no third', () => {
    const penetrations = [
      aPenetration(1, {
        neighbours: [
          { penetration: 'P-0002', distance: 50 },
          { penetration: 'P-0003', distance: 300 },
        ],
      }),
      aPenetration(2),
      aPenetration(3),
    ];
    const both = { ...onPenetration(1), elements: [...onPenetration(1).elements, ...onPenetration(2).elements] };
    const report = aReport({ penetrations, findings: [result('gap', 'failed', { subject: both })] });
    expect(report.penetrations.map((p) => p.outcome)).toEqual(['failed', 'failed', 'untested']);
  });

  it('tells elements of two files with one GlobalId apart', () => {
    const other = { type: 'barrier', id: 'wall-1', elements: [{ model: 'm1', globalId: 'wall-1' }] } as const;
    const report = aReport({ findings: [result('gap', 'passed'), result('rating', 'failed', { subject: other })] });
    expect(report.penetrations[0]?.outcome).toBe('passed');
  });

  it('is refused for a penetration that the report does not have', () => {
    expect(() => penetrationOutcome(aReport(), 'P-0009')).toThrow(/no penetration P-0009/);
  });
});

describe('the report', () => {
  it('sums the outcomes over all checks, listed or not', () => {
    const report = aReport({
      findings: [result('gap', 'failed'), result('rating', 'cantTell')],
      unlisted: [
        result('gap', 'cantTell', { wouldBe: 'passed' }),
        result('opening', 'passed'),
        result('gap', 'inapplicable'),
      ],
    });
    expect(report.summary.outcomes).toEqual({ passed: 1, failed: 1, cantTell: 2, inapplicable: 1, untested: 0 });
    expect(report.summary.wouldPass).toBe(1);
    expect(report.findings.map((f) => f.id)).toEqual(['F-0001', 'F-0002']);
  });

  it('counts crossings, barriers crossed and what was not read', () => {
    const counts = { ...aModel().counts, skipped: 3, unclassified: 2 };
    const report = aReport({
      models: [aModel({ counts }), aModel({ id: 'm2', counts })],
      penetrations: [
        aPenetration(1),
        aPenetration(2, { crossing: 'endsInside' }),
        aPenetration(3, { crossing: 'partial', barrier: aBarrier({ globalId: 'wall-2' }) }),
      ],
    });
    expect(report.summary).toMatchObject({
      penetrations: 3,
      crossings: { through: 1, endsInside: 1, partial: 1 },
      barriersCrossed: 2,
      elementsSkipped: 6,
      unclassified: 4,
    });
  });

  it('shows what was asked for when it was judged, also where the brief picks systems by what they serve', () => {
    const kitchen = { compartment: 'C-0001', dampers: 'never', integrity: 180, insulation: 30 } as const;
    const choices = { ...NO_CHOICES, systems: [kitchen] };
    const penetrations = [aPenetration(1, { duct: aDuct({ run: 'R-001' }), barrier: aBarrier() })];
    const served = { ...crossingsOf(penetrations), runs: [run({ id: 'R-001' })] };
    const required = (crossings: Crossings) => aReport({ crossings, penetrations, choices }).penetrations[0]?.required;
    expect(required(served)).toEqual({ integrity: 180, insulation: 120 });
    // Of which run it is not known what it serves, it is not known whether the entry picks it.
    expect(required({ ...served, runs: [] })).toEqual({ integrity: null, insulation: null });
  });

  it('always carries the cautions, also with nothing in it', () => {
    expect(aReport({ models: [], penetrations: [] }).cautions).toEqual(CAUTIONS);
    expect(CAUTIONS.join(' ')).toMatch(/not a certification.*licensed practitioners.*never counted as passed/);
  });

  it('is for demonstration only where the brief says so', () => {
    const brief = { file: 'brief.yaml', sha256: 'c'.repeat(64), demonstration: true };
    expect(aReport({ brief }).demonstration).toBe(true);
    expect(aReport({ brief }).brief).toEqual({ file: 'brief.yaml', sha256: 'c'.repeat(64) });
    expect(aReport({ brief: { ...brief, demonstration: false } }).demonstration).toBe(false);
    expect(aReport()).toMatchObject({ demonstration: false, brief: null, runs: [], takeoff: null });
  });

  it('prints an unknown layer thickness as null and drops what the schema does not name', () => {
    const barrier = { ...aBarrier({ layers: [{ material: 'brick', thickness: undefined }] }), cache: [1, 2] };
    const duct = { ...aDuct(), bodies: [] };
    const report = aReport({ penetrations: [aPenetration(1, { barrier, duct })] });
    expect(report.barriers[0]?.layers).toEqual([{ material: 'brick', thickness: null, role: null }]);
    expect(report.penetrations[0]?.barrier.layers).toEqual([{ material: 'brick', thickness: null, role: null }]);
    expect(JSON.stringify(report)).not.toMatch(/cache|bodies/);
  });

  it('refuses numbers that are none', () => {
    expect(() => aReport({ penetrations: [aPenetration(1, { skew: Number.NaN })] })).toThrow(/skew/);
  });
});
