/** What was aimed at, held or missed; a miss says why, from the measurement itself. */
import type { Measured } from './measure.js';
import { type Stage, stageTime } from './stages.js';

export interface Verdict {
  readonly target: string;
  /** null: not measured. */
  readonly held: boolean | null;
  readonly found: string;
}

type Checked = Measured & { readonly check: Extract<Measured['check'], { readonly penetrations: number }> };

const isChecked = (one: Measured): one is Checked => 'penetrations' in one.check;

/** ms; less is the noise of starting a process. */
const COMPARABLE = 50;

/** Of the check against web-ifc alone, both net; null where that took too short to be compared with. */
export const ratio = ({ alone, check }: Checked, by: 'wall' | 'processor'): number | null =>
  alone[by] < COMPARABLE ? null : check[by] / alone[by];

export const ratioText = (found: number | null): string => (found === null ? '-' : found.toFixed(2));

/** Slope of the straight line through the logarithms of both, by least squares. */
export function exponent(points: readonly (readonly [number, number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const mean = (i: 0 | 1) => logs.reduce((sum, log) => sum + log[i], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  return (
    logs.reduce((sum, log) => sum + (log[0] - x) * (log[1] - y), 0) /
    logs.reduce((sum, log) => sum + (log[0] - x) ** 2, 0)
  );
}

export function verdicts(all: readonly Measured[]): Verdict[] {
  const checked = all.filter(isChecked);
  return [
    ...all
      .filter((one) => !isChecked(one))
      .map((one) => ({
        target: `${one.file}: the check ends`,
        held: false,
        found: 'error' in one.check ? one.check.error : '',
      })),
    ...checked.filter(({ storeys }) => storeys !== null && storeys >= 128).map((one) => ratioHeld(one, 0.5)),
    ...checked.filter(({ kind, alone }) => kind === 'real' && alone.processor >= 300).map((one) => ratioHeld(one, 1)),
    growth(checked),
    ...checked.map(memory),
  ];
}

/** Processor time: what else runs on the machine is not in it. */
function ratioHeld(one: Checked, most: number): Verdict {
  const found = ratio(one, 'processor');
  const held = found === null ? null : found <= most;
  const why = held === false ? `: ${mostCostly(one.check.stages)}` : '';
  return {
    target: `${one.file}: processor time of the check at most ${most} × web-ifc alone`,
    held,
    found: `${ratioText(found)} × (wall clock ${ratioText(ratio(one, 'wall'))} ×)${why}`,
  };
}

/** The stages that cost most, together at least two thirds. */
function mostCostly(stages: readonly Stage[]): string {
  const total = stageTime(stages, ...stages.map(({ name }) => name));
  const parts: string[] = [];
  let share = 0;
  for (const { name, processor } of [...stages].sort((a, b) => b.processor - a.processor)) {
    if (share > 2 / 3) break;
    share += processor / total;
    parts.push(`${name} ${(processor / 1000).toFixed(1)} s (${((100 * processor) / total).toFixed(0)} %)`);
  }
  return parts.join(', ');
}

const GROWTH = {
  target: 'finding + measuring grow by an exponent of at most 1.1 from 32 to 256 storeys',
  most: 1.1,
} as const;

function growth(checked: readonly Checked[]): Verdict {
  const { target, most } = GROWTH;
  const towers = checked.filter(({ storeys }) => storeys !== null && storeys >= 32);
  if (towers.length < 2) return { target, held: null, found: 'needs two towers of 32 storeys or more' };
  const of = (...stages: string[]) =>
    exponent(towers.map(({ storeys, check }) => [storeys!, stageTime(check.stages, ...stages)]));
  const found = of('finding', 'measuring');
  const parts = `finding ${of('finding').toFixed(2)}, measuring ${of('measuring').toFixed(2)}`;
  return { target, held: found <= most, found: `${found.toFixed(2)} (${parts})` };
}

function memory(one: Checked): Verdict {
  const { peak, stages } = one.check;
  const most = 4 * one.megabytes + 300;
  const held = peak <= most;
  const risen = [...stages].sort((a, b) => b.rise - a.rise).slice(0, 3);
  const why = `: rises by ${risen.map(({ name, rise }) => `${rise.toFixed(0)} MB in ${name}`).join(', ')}`;
  return {
    target: `${one.file}: peak memory at most 4 × ${one.megabytes.toFixed(1)} + 300 MB`,
    held,
    found: `${peak.toFixed(0)} of ${most.toFixed(0)} MB${held ? '' : why}`,
  };
}
