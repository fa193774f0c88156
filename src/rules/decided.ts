import type { Code } from '../strategy/index.js';
import type { Strategy } from './brief-says.js';
import type { TestedDocuments } from './choose-system.js';
import type { RuleSet } from './rule-set.js';
import type { WholeRuns } from './whole-runs.js';

/** What has been decided about the project. */
export interface Decided extends Strategy, TestedDocuments {
  /** Those of which there are checks. */
  readonly codes?: readonly Code[] | undefined;
  /** Of flanges, where the brief says nothing. */
  readonly flanges?: RuleSet['flanges'];
  /** What standards say, where a tested system says nothing. */
  readonly published?: RuleSet['published'];
  /** Where only a part of some runs is judged. */
  readonly wholeRuns?: WholeRuns | undefined;
}
