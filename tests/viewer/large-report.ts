/** A report as large as the viewer has to bear: the demo building many times over, side by side, each a storey higher. */
import type { Report, ReportFinding, ReportPenetration } from '../../src/report/schema.js';

type Vec3 = readonly [number, number, number];

export interface Size {
  /** Copies of the building. */
  readonly buildings: number;
  /** Findings for each of the report's own, each of another check. */
  readonly findingsEach: number;
}

/** 20,100 findings at 5,500 penetrations of 1,900 barriers, when made of the demo building's 134 at 110 of 38. */
export const LARGE: Size = { buildings: 50, findingsEach: 3 };

/** mm between copies. */
const APART = 100_000;
const STOREY = 4_000;

/** Everything that refers to something else in the report refers to the copy's own. What is not copied stands as it is. */
export function largeReport(from: Report, { buildings, findingsEach }: Size = LARGE): Report {
  const copies = Array.from({ length: buildings }, (_, n) => copyOf(from, n, findingsEach));
  const penetrations = copies.flatMap((copy) => copy.penetrations);
  const findings = copies
    .flatMap((copy) => copy.findings)
    // As reports have them: the most serious first.
    .sort((a, b) => Number(a.outcome !== 'failed') - Number(b.outcome !== 'failed'))
    .map((finding, i) => ({ ...finding, id: `F-${String(i + 1).padStart(5, '0')}` }));
  return {
    ...from,
    ...{ penetrations, findings },
    barriers: copies.flatMap((copy) => copy.barriers),
    runs: copies.flatMap((copy) => copy.runs),
    takeoff: null,
    summary: { ...from.summary, penetrations: penetrations.length },
  };
}

type Copied = Pick<Report, 'penetrations' | 'findings' | 'barriers' | 'runs'>;

function copyOf(from: Report, n: number, findingsEach: number): Copied {
  const ref = <T extends { readonly globalId: string }>(one: T): T => ({ ...one, globalId: `${one.globalId}.${n}` });
  const storeyed = <T extends { readonly storey: ReportPenetration['storey'] }>(one: T): T => ({
    ...one,
    storey: one.storey && {
      ...ref(one.storey),
      name: `${one.storey.name} ${n + 1}`,
      elevation: one.storey.elevation + n * STOREY,
    },
  });
  const moved = ([x, y, z]: Vec3): [number, number, number] => [x + n * APART, y, z + n * STOREY];
  const barrierOf = (barrier: ReportPenetration['barrier']): ReportPenetration['barrier'] => ({
    ...storeyed(ref(barrier)),
    name: `${barrier.name} ${n + 1}`,
    leaves: barrier.leaves.map(ref),
  });
  const id = (one: string): string => `${one}.${n}`;
  const penetrations = from.penetrations.map((p) => ({
    ...storeyed(p),
    ...{ id: id(p.id), key: id(p.key), tag: id(p.tag) },
    barrier: barrierOf(p.barrier),
    elements: p.elements.map(ref),
    opening: p.opening && { ...p.opening, globalId: p.opening.globalId === null ? null : id(p.opening.globalId) },
    neighbours: p.neighbours.map((one) => ({ ...one, penetration: id(one.penetration) })),
    position: moved(p.position),
    duct: { ...p.duct, system: p.duct.system && `${p.duct.system}-${n % 12}` },
  }));
  const findings = Array.from({ length: findingsEach }, (_, again) =>
    from.findings.map((finding, i): ReportFinding => {
      const { subject } = finding;
      return {
        ...finding,
        key: `${finding.key}.${n}.${again}`,
        check: again === 0 ? finding.check : from.checks[(i + again * 17) % from.checks.length]!.id,
        subject: { ...subject, id: id(subject.id), elements: subject.elements.map(ref) },
        at: finding.at && moved(finding.at),
        // Others in their last figures, so that orders have something to do.
        margin: finding.margin === null ? null : finding.margin - n - again / 10,
      };
    }),
  ).flat();
  return {
    ...{ penetrations, findings },
    barriers: from.barriers.map(barrierOf),
    runs: from.runs.map((run) => ({ ...run, id: id(run.id), system: run.system && `${run.system}-${n % 12}` })),
  };
}
