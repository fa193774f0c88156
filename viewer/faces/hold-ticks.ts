/** The hold-point line of a penetration as data: what is at risk, never how far the site is. */
import { HOLD_LINE, type HoldStep, type StepState, stepState } from '../../src/report/hold-points.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { Building } from '../state/building.js';
import { earliestStop } from '../state/rows.js';

export interface HoldTick {
  readonly step: HoldStep;
  readonly state: StepState;
  /** The earliest that something is known against; at most one of a line. */
  readonly isStopped: boolean;
}

export function holdTicks(p: ReportPenetration, building: Building): HoldTick[] {
  const stop = earliestStop(p, building);
  return HOLD_LINE.map((step) => ({ step, state: stepState(p, step), isStopped: step.id === stop }));
}

export const stoppedTick = (ticks: readonly HoldTick[]): HoldTick | undefined => ticks.find((tick) => tick.isStopped);
