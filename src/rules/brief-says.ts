import type { FactObject } from './fact-schema.js';
import type { BriefChoices, SystemChoice } from './project-brief.js';
import { choiceFor } from './project-brief-sense.js';

/** What the project brief says of one duct's system. */
export interface BriefSays {
  /** Whether the brief says of any system what it may have. */
  readonly listsSystems: boolean;
  /** False where the brief lists systems and this one, or one that is not known, is not among them. */
  readonly known: boolean;
  readonly choice: SystemChoice | undefined;
  readonly headMovement: number | undefined;
}

/** What a brief does not list might be a listed system whose name was garbled, so nothing can be told of it. */
export function briefSays(system: string | null, choices: BriefChoices | undefined): BriefSays {
  const headMovement = choices?.headMovement;
  if (!choices || choices.systems.length === 0)
    return { listsSystems: false, known: true, choice: undefined, headMovement };
  const choice = system === null ? undefined : choiceFor(system, choices.systems);
  return { listsSystems: true, known: choice !== undefined, choice, headMovement };
}

export const briefFacts = ({ listsSystems, known, choice, headMovement }: BriefSays): FactObject => ({
  listsSystems,
  headMovementGiven: headMovement !== undefined,
  ...(headMovement !== undefined && { headMovement }),
  ...(known && { dampers: choice?.dampers ?? 'allowed' }),
});
