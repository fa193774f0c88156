/** What a brief chooses and what it could choose instead, as plain data for those who try it out. */
import type { RuleStatus } from '../model.js';
import type { BriefChoices, RuleSet } from '../rules/index.js';

export interface Choosable {
  /** Of the brief, or of the default one. */
  readonly choices: BriefChoices;
  /** Tested systems for which there are documents. */
  readonly systems: readonly { readonly id: string; readonly name: string; readonly status: RuleStatus }[];
}

export const choosableOf = (choices: BriefChoices, { systems }: Pick<RuleSet, 'systems'>): Choosable => ({
  choices,
  systems: systems.map(({ id, name, status }) => ({ id, name, status })),
});
