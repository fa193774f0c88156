/** Small whole things of the data model, typed by it; each takes what a test is about and fills in the rest. */
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
} from '../../src/model.js';
import { buildReport, type ReportInput } from '../../src/report/build-report.js';
import type { Report } from '../../src/report/schema.js';

export const level1: Storey = { globalId: 'storey-1', name: 'Level 1', elevation: 0 };

export const stated: Rating = {
  state: 'stated',
  text: '-/120/120',
  loadbearing: 'none',
  integrity: 120,
  insulation: 120,
  duration: null,
  from: 'occurrence',
};
export const unstated: Rating = {
  state: 'unstated',
  text: null,
  loadbearing: null,
  integrity: null,
  insulation: null,
  duration: null,
  from: null,
};
export const unreadable: Rating = { ...unstated, state: 'unreadable', text: 'FR 1hr (TBC)', from: 'type' };

export function aModel(model: Partial<ModelInfo> = {}): ModelInfo {
  return {
    id: 'm1',
    file: 'services.ifc',
    schema: 'IFC4',
    sha256: 'a'.repeat(64),
    projectGlobalId: 'project-1',
    lengthUnit: 'MILLIMETRE',
    application: 'Invented Author 1',
    counts: {
      ducts: 2,
      fittings: 0,
      dampers: 0,
      silencers: 0,
      terminals: 0,
      barriers: 0,
      openings: 0,
      otherServices: 0,
      skipped: 0,
      unclassified: 0,
    },
    problems: [],
    ...model,
  };
}

export function aBarrier(barrier: Partial<BarrierFacts> = {}): BarrierFacts {
  return {
    model: 'm2',
    globalId: 'wall-1',
    name: 'W-12',
    kind: 'wall',
    storey: level1,
    thickness: 128,
    leaves: [],
    construction: 'steelStud',
    layers: [{ material: 'lining', thickness: 13 }],
    rating: stated,
    ...barrier,
  };
}

export function aDuct(duct: Partial<DuctFacts> = {}): DuctFacts {
  return {
    model: 'm1',
    globalId: 'duct-1',
    name: 'Duct 1',
    element: 'segment',
    shape: 'rectangular',
    width: 600,
    height: 400,
    diameter: null,
    sectionFrom: 'profile',
    sectionResidual: null,
    sectionProblem: null,
    wall: {
      outline: 'sheet',
      evidence: 'nothing in the model says that it is insulated',
      sheet: null,
      insulation: null,
      lining: null,
    },
    sizes: { inside: null, sheet: null, insulation: null },
    material: 'steel',
    axis: [
      [3000, -2500, 2000],
      [3000, 2500, 2000],
    ],
    run: null,
    system: 'KX',
    systemType: 'EXHAUST',
    stated: { width: null, height: null, diameter: null },
    ...duct,
  };
}

/** The n-th penetration: by default of its own duct, all through one wall. */
export function aPenetration(n: number, penetration: Partial<Penetration> = {}): Penetration {
  const duct = penetration.duct ?? aDuct({ globalId: `duct-${n}`, name: `Duct ${n}` });
  return {
    id: `P-000${n}`,
    key: `key-${n}`,
    tag: `TAG${n}-9`,
    crossing: 'through',
    duct,
    elements: [{ model: duct.model, globalId: duct.globalId }],
    dampers: [],
    barrier: aBarrier(),
    opening: { model: 'm2', globalId: `opening-${n}`, shape: 'rectangular', width: 700, height: 500, from: 'element' },
    gaps: { top: 30, bottom: 70, left: 60, right: 40, min: 30, max: 70, facing: {} },
    gapsTo: 'unknown',
    neighbours: [],
    others: [],
    skew: 0,
    position: [3000, 0, 2000],
    frame: { normal: [0, 1, 0], right: [1, 0, 0], up: [0, 0, 1] },
    outlines: {
      duct: [
        [
          [-300, -200],
          [300, -200],
          [300, 200],
          [-300, 200],
        ],
      ],
      opening: [],
    },
    storey: level1,
    treatment: { kind: 'unknown', evidence: null, layers: null, integrity: null, insulation: null, feasible: [] },
    ...penetration,
  };
}

export function crossingsOf(penetrations: readonly Penetration[], barriers?: readonly BarrierFacts[]): Crossings {
  const found = new Map(penetrations.map((p) => [p.barrier.globalId, p.barrier]));
  return { barriers: barriers ?? [...found.values()], penetrations, facingEnds: [], overlap: true };
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
    concession: null,
    ...finding,
  };
}

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
      basis: { source: 'common practice', clause: null, status: 'unverified' },
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
}

/** Two files, and by default one penetration that nothing was found about. */
export function aReport({
  penetrations = [aPenetration(1)],
  findings = [],
  unlisted = [],
  ...input
}: ReportParts = {}): Report {
  const judgement = judgementOf(findings, unlisted);
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
