/** Reports for tests, and what stands in them. */
import type {
  BarrierFacts,
  CheckResult,
  Crossings,
  DuctFacts,
  Finding,
  Judgement,
  ModelInfo,
  Penetration,
  Rating,
  Storey,
  StrategyRow,
  SupportRow,
} from '../../src/model.js';
import { buildReport, type ReportInput } from '../../src/report/build-report.js';
import type { Report } from '../../src/report/schema.js';
import {
  barrier,
  duct,
  gaps,
  modelInfo,
  opening,
  penetration,
  rating,
  UNREADABLE,
  UNSTATED,
} from '../model-factories.js';

export const level1: Storey = { globalId: 'storey-1', name: 'Level 1', elevation: 0 };

export const stated: Rating = rating();
export const unstated: Rating = UNSTATED;
export const unreadable: Rating = { ...UNREADABLE, from: 'type' };

export const aModel = (model: Partial<ModelInfo> = {}): ModelInfo => ({
  ...modelInfo({ ducts: 2 }),
  sha256: 'a'.repeat(64),
  projectGlobalId: 'project-1',
  application: 'Invented Author 1',
  writtenAt: '2026-01-01T00:00:00',
  ...model,
});

export const aBarrier = (changes: Partial<BarrierFacts> = {}): BarrierFacts =>
  barrier({
    globalId: 'wall-1',
    name: 'W-12',
    storey: level1,
    layers: [{ material: 'lining', thickness: 13 }],
    ...changes,
  });

export const aDuct = (changes: Partial<DuctFacts> = {}): DuctFacts =>
  duct({
    globalId: 'duct-1',
    axis: [
      [3000, -2500, 2000],
      [3000, 2500, 2000],
    ],
    system: 'KX',
    systemType: 'EXHAUST',
    ...changes,
  });

/** The n-th penetration: by default of its own duct, all through one wall. */
export function aPenetration(n: number, changes: Partial<Penetration> = {}): Penetration {
  const own = changes.duct ?? aDuct({ globalId: `duct-${n}`, name: `Duct ${n}` });
  return penetration({
    id: `P-000${n}`,
    key: `key-${n}`,
    tag: `TAG${n}-9`,
    duct: own,
    elements: [{ model: own.model, globalId: own.globalId }],
    barrier: aBarrier(),
    opening: opening({ globalId: `opening-${n}`, width: 700, height: 500 }),
    gaps: gaps({ bottom: 70, left: 60, right: 40, max: 70 }),
    gapsTo: 'unknown',
    storey: level1,
    ...changes,
  });
}

export function crossingsOf(penetrations: readonly Penetration[], barriers?: readonly BarrierFacts[]): Crossings {
  const found = new Map(penetrations.map((p) => [p.barrier.globalId, p.barrier]));
  return {
    barriers: barriers ?? [...found.values()],
    penetrations,
    facingEnds: [],
    openings: [],
    runs: [],
    access: [],
    compartments: [],
    doors: [],
    apart: [],
  };
}

const TITLES = {
  gap: 'Gap within range',
  rating: 'Fire rating of the barrier known',
  treatment: 'Damper or protection at a rated barrier',
  opening: 'Opening modelled',
} as const;
export type Check = keyof typeof TITLES;

/** Numbers itself by place in {@link judgementOf}. */
export function aFinding(check: Check, finding: Partial<Finding> = {}): Finding {
  return {
    id: 'F-0000',
    key: 'finding-key',
    check,
    outcome: 'failed',
    wouldBe: null,
    subject: { type: 'penetration', id: 'P-0001', elements: [{ model: 'm1', globalId: 'duct-1' }] },
    side: null,
    at: [3000, 0, 2000],
    measured: null,
    limit: null,
    margin: null,
    message: 'Something was found.',
    remedy: null,
    change: null,
    missing: [],
    tolerance: null,
    concession: null,
    ...finding,
  };
}

/** A run that must resist, everything of which is called so. */
export const aStrategyRow = (name: string): StrategyRow => ({
  ...{ run: 'R-001', part: 1, system: name, service: null, mustResist: true, fire: null },
  required: { integrity: 120, insulation: 120 },
  reasons: [{ says: name, source: name, status: 'model' }],
  ...{ serves: [name], passes: [name], reachesOutside: false },
  crossings: [{ penetration: name, treatment: 'blanket' }],
  there: [{ kind: 'blanket', evidence: name, length: 1000 }],
  stretches: ['R-001.1'],
  testedSystem: null,
  wouldFit: [{ system: name, status: 'demonstration' }],
  lapses: [
    { kind: 'bare', length: 10, from: [0, 0, 0], to: [10, 0, 0], compartments: [name], elements: [], doubtful: true },
  ],
  contradictions: [name],
});

/** A row of the support schedule, of which nothing is known but names. */
export const aSupportRow = (name: string): SupportRow => {
  const mass = { thickness: null, density: null, perMetre: null, from: null };
  return {
    ...{ run: name, part: 1, stretch: name, system: name, elements: [{ model: 'm1', globalId: name }] },
    ...{ shape: 'unknown', width: null, height: null, diameter: null, length: 1000, minutes: null },
    ...{ sheet: mass, insulation: mass, protection: mass, perMetre: null },
    ...{ rod: null, rods: 2, bearer: name, bearerLength: null, bearerMass: null },
    ...{ testedSystem: name, testedStatus: 'demonstration' },
    spacing: { tested: null, byStress: null, governing: null },
    ...{ load: null, rodLoad: null, rodStress: null, rodStressAllowed: null, rodStressFrom: null },
    ...{ bearerStress: null, bearerStressAllowed: null, firstSupport: null, rodLengthAtMost: null },
    ...{ growthPerMetre: null, needed: null, found: 0 },
  };
};

export const onPenetration = (n: number): Finding['subject'] => ({
  type: 'penetration',
  id: `P-000${n}`,
  elements: [
    { model: 'm1', globalId: `duct-${n}` },
    { model: 'm2', globalId: 'wall-1' },
  ],
});
export const onBarrier = (globalId: string): Finding['subject'] => ({
  type: 'barrier',
  id: globalId,
  elements: [{ model: 'm2', globalId }],
});

/** Counts the results as `judge` does; `unlisted` are counted only. */
export function judgementOf(findings: readonly Finding[], unlisted: readonly Finding[] = []): Judgement {
  const results = [...findings, ...unlisted];
  const checks = (Object.keys(TITLES) as Check[]).map((id): CheckResult => {
    const own = results.filter((f) => f.check === id);
    const count = (outcome: Finding['outcome']) => own.filter((f) => f.outcome === outcome).length;
    return {
      id,
      title: TITLES[id],
      about: id === 'rating' || id === 'opening' ? 'model' : 'fire',
      unit: id === 'gap' ? 'mm' : null,
      stops: id === 'gap' || id === 'opening' ? 'formingOpening' : null,
      basis: { source: 'common practice', clause: null, status: 'unverified', jurisdiction: null, edition: null },
      outcomes: {
        passed: count('passed'),
        failed: count('failed'),
        cantTell: count('cantTell'),
        inapplicable: count('inapplicable'),
        untested: count('untested'),
        wouldPass: own.filter((f) => f.wouldBe === 'passed').length,
      },
    };
  });
  return {
    strategy: [],
    supports: [],
    proposedPanels: [],
    unsolvedPlaces: null,
    tested: [],
    rules: [
      {
        id: 'practice',
        version: '1',
        file: 'practice.yaml',
        status: 'unverified',
        source: 'common practice, no source',
      },
    ],
    checks,
    findings: findings.map((f, i) => ({ ...f, id: `F-${String(i + 1).padStart(4, '0')}` })),
  };
}

export interface ReportParts extends Partial<ReportInput> {
  readonly penetrations?: readonly Penetration[];
  readonly findings?: readonly Finding[];
  readonly unlisted?: readonly Finding[];
  readonly strategy?: readonly StrategyRow[];
  readonly supports?: readonly SupportRow[];
  readonly unsolvedPlaces?: number;
}

/** Two files, and by default one penetration that nothing was found about. */
export function aReport({
  penetrations = [aPenetration(1)],
  findings = [],
  unlisted = [],
  strategy = [],
  supports = [],
  unsolvedPlaces,
  ...input
}: ReportParts = {}): Report {
  const judgement = {
    ...judgementOf(findings, unlisted),
    ...{ strategy, supports },
    ...(unsolvedPlaces !== undefined && { unsolvedPlaces }),
  };
  return buildReport({
    models: [aModel(), aModel({ id: 'm2', file: 'architecture.ifc', sha256: 'b'.repeat(64) })],
    crossings: crossingsOf(penetrations),
    judgement,
    results: [...judgement.findings, ...unlisted],
    createdAt: '2026-01-02T03:04:05Z',
    toolVersion: '0.1.0',
    ...input,
  });
}
