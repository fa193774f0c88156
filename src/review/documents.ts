/** Rule documents and a brief as texts → what a review goes by. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { ConstructionWords } from '../model.js';
import type { ReportInput } from '../report/build-report.js';
import {
  constructionRows,
  loadBrief,
  loadRules,
  type ProjectBrief,
  type RuleDocumentText,
  type RuleSet,
} from '../rules/index.js';
import { fileName } from '../words/text.js';

/**
 * Rules that hold no service table leave the shipped one in force, and may name shipped published values: what systems are
 * for, and what standards say, does not hang on them.
 *
 * @param given left out: the shipped rules
 * @throws RuleDocumentError
 */
export function rulesOf(given: readonly RuleDocumentText[] | undefined, shipped: RuleSet): RuleSet {
  if (!given) return shipped;
  const rules = loadRules(given, shipped);
  return rules.services.length > 0 ? rules : { ...rules, services: shipped.services };
}

/** Rules that hold no construction table leave the shipped one in force: what walls are built of does not hang on them. */
export const constructionsOf = (rules: RuleSet, shipped: RuleSet): readonly ConstructionWords[] =>
  constructionRows(rules.tables.length > 0 ? rules : shipped);

export interface ReadBrief {
  readonly brief: ProjectBrief;
  /** As the report names it. */
  readonly info: NonNullable<ReportInput['brief']>;
  readonly text: string;
}

/** @throws RuleDocumentError: also where it chooses what no rule document holds */
export function briefOf(file: string, bytes: Uint8Array, rules: RuleSet): ReadBrief {
  const text = new TextDecoder().decode(bytes);
  const brief = loadBrief({ file, text }, rules);
  return {
    brief,
    text,
    info: { file: fileName(file), sha256: bytesToHex(sha256(bytes)), demonstration: brief.demonstration },
  };
}
