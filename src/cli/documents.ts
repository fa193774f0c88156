/** Rule documents and project briefs as the command line names them. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { once } from '../collect.js';
import type { ConstructionWords } from '../model.js';
import type { ReportInput } from '../report/build-report.js';
import {
  constructionRows,
  isProjectBrief,
  loadBrief,
  loadRules,
  type ProjectBrief,
  type RuleDocumentText,
  type RuleSet,
} from '../rules/index.js';
import { readInput, readRuleTexts, shippedRuleTexts } from './io.js';

interface RuleDocuments {
  readonly texts: readonly RuleDocumentText[];
  readonly rules: RuleSet;
}

const shippedDocuments = once(async (): Promise<RuleDocuments> => {
  const texts = await shippedRuleTexts();
  return { texts, rules: loadRules(texts) };
});
const shippedRules = async (): Promise<RuleSet> => (await shippedDocuments()).rules;

/** Who asks for no rules need not wait for the rest of them. */
const isConstructionTable = ({ text }: RuleDocumentText): boolean => /^kind: construction-table$/m.test(text);

/**
 * Rules that hold no service table leave the shipped one in force, and may name shipped published values: what systems are
 * for, and what standards say, does not hang on them.
 *
 * @param paths left out: the shipped rules
 */
export async function rulesFrom(paths: readonly string[] | undefined): Promise<RuleSet> {
  const shipped = await shippedRules();
  if (!paths) return shipped;
  const given = loadRules(await readRuleTexts(paths), shipped);
  return given.services.length > 0 ? given : { ...given, services: shipped.services };
}

/** Rules that hold no construction table leave the shipped one in force: what walls are built of does not hang on them. */
export async function constructionsUnder(rules?: RuleSet): Promise<readonly ConstructionWords[]> {
  if (rules) return constructionRows(rules.tables.length > 0 ? rules : await shippedRules());
  return constructionRows(loadRules((await shippedRuleTexts()).filter(isConstructionTable)));
}

export interface ReadBrief {
  readonly brief: ProjectBrief;
  /** As the report names it. */
  readonly info: NonNullable<ReportInput['brief']>;
}

/** @throws UsageError, RuleDocumentError: also where it chooses what no rule document holds */
export async function readBrief(path: string, rules: RuleSet): Promise<ReadBrief> {
  const bytes = await readInput(path);
  const brief = loadBrief({ file: path, text: new TextDecoder().decode(bytes) }, rules);
  const { demonstration } = brief;
  return { brief, info: { file: path, sha256: bytesToHex(sha256(bytes)), demonstration } };
}

/** With the texts in the order of the command line. */
export interface Documents extends RuleDocuments {
  /** What may be named without being given. */
  readonly shipped: RuleDocuments;
  readonly briefs: readonly (Pick<ProjectBrief, 'id' | 'version' | 'demonstration'> & { readonly file: string })[];
}

/** Rules and briefs in any mixture. Briefs choose from the rules beside them; with none there, from the shipped ones. */
export async function documentsFrom(paths: readonly string[]): Promise<Documents> {
  const texts = await readRuleTexts(paths);
  const [briefs, rules]: RuleDocumentText[][] = [texts.filter(isProjectBrief), texts.filter((t) => !isProjectBrief(t))];
  const shipped = await shippedDocuments();
  const named = loadRules(rules!, shipped.rules);
  const known = rules!.length > 0 ? named : shipped.rules;
  return {
    texts,
    rules: named,
    shipped,
    briefs: briefs!.map((text) => ({ ...loadBrief(text, known), file: text.file })),
  };
}
