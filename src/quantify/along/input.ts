/** What is counted along runs is worked out from this. */
import type { Crossings, Judgement } from '../../model.js';
import type { SystemChoice, TestedSystem } from '../../rules/index.js';
import type { QuantifyChoices } from '../choices.js';

export interface RunInput {
  readonly crossings: Pick<Crossings, 'runs' | 'access' | 'supports'>;
  readonly judgement: Pick<Judgement, 'tested' | 'strategy' | 'supports' | 'proposedPanels'>;
  readonly systems: readonly TestedSystem[];
  readonly choices: QuantifyChoices;
  /** `choices.systems` of the brief. */
  readonly entries?: readonly SystemChoice[] | undefined;
}
