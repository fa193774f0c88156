import type { Penetration } from '../model.js';

type Kind = Penetration['treatment']['kind'];

/** Kinds of treatment that protect the duct itself, with a damper or without. */
const PROTECTIONS: readonly Kind[] = ['blanket', 'board', 'fireResistingDuct', 'both'];

export const isProtection = (kind: Kind): boolean => PROTECTIONS.includes(kind);

export interface ProtectionCounts {
  readonly protected: number;
  readonly withoutSystem: number;
  readonly withoutPressure: number;
  /** Of rated barriers, at which the chosen details are built, and of how many nothing says whether people get there. */
  readonly facesToBuildAt: number;
  readonly facesUntold: number;
  /** Where a damper is all that is there. */
  readonly dampered: number;
  readonly dampersWithoutProof: number;
}
