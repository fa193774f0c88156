/** Rule documents and project briefs as the command line names them. */
import { compareTexts, once } from '../collect.js';
import type { ConstructionWords } from '../model.js';
import { briefOf, constructionsOf, type ReadBrief, rulesOf } from '../review/documents.js';
import {
  constructionRows,
  isProjectBrief,
  loadBrief,
  loadRules,
  type ProjectBrief,
  type RuleDocumentText,
  type RuleSet,
} from '../rules/index.js';
import { fileName } from '../words/text.js';
import { readDocument, readRuleTexts, shippedRuleTexts } from './io.js';

interface RuleDocuments {
  readonly texts: readonly RuleDocumentText[];
  readonly rules: RuleSet;
}

const shippedDocuments = once(async (): Promise<RuleDocuments> => {
  const texts = await shippedRuleTexts();
  return { texts, rules: loadRules(texts) };
});

/** Who asks for no rules need not wait for the rest of them. */
const isConstructionTable = ({ text }: RuleDocumentText): boolean => /^kind: construction-table$/m.test(text);

export const shippedConstructions = async (): Promise<readonly ConstructionWords[]> =>
  constructionRows(loadRules((await shippedRuleTexts()).filter(isConstructionTable)));

/** A text that was read before is the same object, since what it was compiled to is known by that. */
const before = new Map<string, RuleDocumentText>();

function asBefore(document: RuleDocumentText): RuleDocumentText {
  const known = before.get(document.file);
  if (known?.text === document.text) return known;
  before.set(document.file, document);
  return document;
}

/** What a review goes by, beside its brief. */
export interface ReviewDocuments {
  readonly rules: RuleSet;
  readonly constructions: readonly ConstructionWords[];
  /** As texts; undefined: the shipped rules. */
  readonly given: readonly RuleDocumentText[] | undefined;
  readonly shipped: readonly RuleDocumentText[];
}

/**
 * @param paths left out: the shipped rules
 * @throws UsageError, RuleDocumentError
 */
export async function reviewDocuments(paths: readonly string[] | undefined): Promise<ReviewDocuments> {
  const shipped = await shippedDocuments();
  const given = paths && inOrder(await readRuleTexts(paths)).map(asBefore);
  const rules = rulesOf(given, shipped.rules);
  return { rules, constructions: constructionsOf(rules, shipped.rules), given, shipped: shipped.texts };
}

/** As from one folder: of rows that fit the first counts, and that must not hang on the order of the command line. */
const inOrder = (texts: readonly RuleDocumentText[]): RuleDocumentText[] =>
  texts.toSorted((a, b) => compareTexts(fileName(a.file), fileName(b.file)) || compareTexts(a.text, b.text));

/** @throws UsageError, RuleDocumentError: also where it chooses what no rule document holds */
export const readBrief = async (path: string, rules: RuleSet): Promise<ReadBrief> =>
  briefOf(path, await readDocument(path), rules);

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
