/** The hold points of one penetration: where the work waits until somebody has looked and signed. */
import { needsAttention } from '../attention.js';
import { HOLD_POINTS, type HoldPoint } from '../model.js';
import type { MaterialKind } from '../quantify/takeoff.js';
import { counted } from '../words/text.js';
import type { Lookup } from './lookup.js';
import type { ReportFinding, ReportPenetration } from './schema.js';

export interface HoldStep {
  readonly id: 'openingReady' | 'packedAndSealed' | 'anglesFixed' | 'buildUpOn' | 'closedUp';
  readonly name: string;
  /** What to look at, where the models and the documents say no more. */
  readonly look: string;
  /** A finding that stops this stops the step and all after it. */
  readonly stoppedBy: HoldPoint | null;
  /** Parts of a tested detail that are looked at here; without any of them the step is no part of it. */
  readonly parts: readonly string[];
}

/** In the order of the work. Common practice, no source. */
export const HOLD_LINE: readonly HoldStep[] = [
  {
    id: 'openingReady',
    name: 'Opening ready',
    look: 'gaps measured, edges sound and clean',
    stoppedBy: 'formingOpening',
    parts: [],
  },
  {
    id: 'packedAndSealed',
    name: 'Packed and sealed',
    look: 'packing through the barrier, sealant unbroken',
    stoppedBy: null,
    parts: ['packing', 'sealant'],
  },
  {
    id: 'anglesFixed',
    name: 'Angles and collars fixed',
    look: 'sizes and spacing of screws',
    stoppedBy: null,
    parts: ['angle', 'boardCollar'],
  },
  {
    id: 'buildUpOn',
    name: 'Local build-up on',
    look: 'layers, length along the duct, fixing',
    stoppedBy: null,
    parts: ['localBuildUp'],
  },
  {
    id: 'closedUp',
    name: 'Closed up',
    look: 'all above signed, photographs taken',
    stoppedBy: 'closingUp',
    parts: [],
  },
];

/** The step at which a material is looked at; screws go with what they fix. */
export const STEP_OF: { readonly [K in MaterialKind]: HoldStep['id'] } = {
  packing: 'packedAndSealed',
  sealant: 'packedAndSealed',
  angle: 'anglesFixed',
  screw: 'anglesFixed',
  boardCollar: 'anglesFixed',
  blanket: 'buildUpOn',
  board: 'buildUpOn',
  localBuildUp: 'buildUpOn',
  pin: 'buildUpOn',
  strap: 'buildUpOn',
  tape: 'buildUpOn',
  accessPanel: 'closedUp',
  rod: 'closedUp',
  bearer: 'closedUp',
};

/** What has to be settled before work, in the order of the site; null: the rule document does not say what it stops. */
export interface ToSettle {
  readonly finding: ReportFinding;
  readonly stops: HoldPoint | null;
}

export function toSettle(p: ReportPenetration, { findings, checks }: Pick<Lookup, 'findings' | 'checks'>): ToSettle[] {
  const order = (stops: HoldPoint | null): number => (stops === null ? -1 : HOLD_POINTS.indexOf(stops));
  return (findings.get(p.id) ?? [])
    .filter(needsAttention)
    .map((finding) => ({ finding, stops: checks.get(finding.check)?.stops ?? null }))
    .sort((a, b) => order(a.stops) - order(b.stops));
}

export const BEFORE_WORDS: { readonly [H in HoldPoint]: string } = {
  formingOpening: 'before forming the opening',
  closingUp: 'before closing up',
  handover: 'before handover',
};

export type StepState = 'needed' | 'notOfDetail' | 'unknown';

/** Whether the detail has anything to look at here; without a detail nobody knows. */
export function stepState({ treatment: { chosen } }: ReportPenetration, { parts }: HoldStep): StepState {
  if (parts.length === 0) return 'needed';
  if (!chosen || chosen.parts.length === 0) return 'unknown';
  return chosen.parts.some(({ part }) => parts.includes(part)) ? 'needed' : 'notOfDetail';
}

/** Findings that hold a step back: what stops an earlier one stops this one too. Unsaid is taken as the earliest. */
function stoppedAt(step: HoldStep, settle: readonly ToSettle[]): readonly ToSettle[] {
  const at = HOLD_LINE.indexOf(step);
  return settle.filter(({ stops }) => {
    if (stops === 'handover') return false;
    const first = stops === null ? 0 : HOLD_LINE.findIndex(({ stoppedBy }) => stoppedBy === stops);
    return first <= at;
  });
}

/** Only what nothing is known against may look like a card to build by. */
export const isReady = (p: ReportPenetration, settle: readonly ToSettle[]): boolean =>
  p.outcome === 'passed' && settle.length === 0;

/** How many things hold a step back; what is not ready without a finding that says why is held back from the start. */
export function stopsAt(p: ReportPenetration, step: HoldStep, settle: readonly ToSettle[]): number {
  return unlistedWords(p, settle) === null ? stoppedAt(step, settle).length : 1;
}

/** Why nobody may build where no finding is listed; null where one is, or where all is well. */
export function unlistedWords(p: ReportPenetration, settle: readonly ToSettle[]): string | null {
  if (isReady(p, settle) || settle.length > 0) return null;
  const { wouldPass } = p.outcomes;
  if (wouldPass === 0) return 'Nothing was found that proves what is built here; report.html says what was looked at.';
  const meet = wouldPass === 1 ? 'meets a limit that proves' : 'meet limits that prove';
  return `${counted(wouldPass, 'result')} here ${meet} nothing; a tested system's own proof is needed.`;
}
