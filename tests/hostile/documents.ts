/** A brief and a check set that have every text wherever people may write one; as JSON, which YAML 1.2 is a superset of. */
import type { Report } from '../../src/report/schema.js';
import type { ReadBrief } from '../../src/review/documents.js';
import { briefOf, rulesOf } from '../../src/review/documents.js';
import type { RuleDocumentText, RuleSet } from '../../src/rules/index.js';
import { rules as shipped, shippedTexts } from '../shipped-rules.js';
import { type HostileText, markOf } from './strings.js';

export const DOCUMENT_PLACES = [
  ...['ruleTitle', 'ruleSource', 'ruleClause', 'ruleMessage', 'ruleRemedy'],
  ...['briefFile', 'evidence', 'drawing', 'revision', 'jurisdiction', 'accessSource'],
  ...['reason', 'grantedBy', 'role', 'reference', 'comment', 'author'],
] as const;
type Place = (typeof DOCUMENT_PLACES)[number];

/** What no rule document or brief may hold, escaped or not: texts of models alone bring it. */
const REFUSED = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufeff\ufffd-\uffff]/u;

/** As long as the field may be; a text that would be empty there, or is none in YAML, says so in figures. */
const shortened = (text: HostileText, place: Place, longest: number): string => {
  const cut = [...text.at(place)]
    .filter((one) => !REFUSED.test(one))
    .slice(0, longest)
    .join('');
  return cut.trim().length > 1 ? cut : markOf(text.number, place);
};

/** Braces open a fact in the messages of rules, so those of texts are doubled into words. */
const inRule = (text: HostileText, place: Place): string => shortened(text, place, 900).replace(/[{}]/g, '(');

const checkOf = (text: HostileText) => ({
  ...{ id: `hostile-${text.number}`, title: inRule(text, 'ruleTitle'), about: 'model', each: 'model' },
  ...{ measure: 'model.barriers', atMost: 0 },
  message: { failed: inRule(text, 'ruleMessage'), cantTell: inRule(text, 'ruleMessage') },
  remedy: { failed: inRule(text, 'ruleRemedy') },
  basis: { source: inRule(text, 'ruleSource'), clause: inRule(text, 'ruleClause'), status: 'unverified' },
  examples: [{ facts: { model: { barriers: 1 } }, outcome: 'failed' }],
});

export interface HostileRules {
  readonly rules: RuleSet;
  readonly texts: readonly RuleDocumentText[];
}

export const HOSTILE_RULES = 'hostile.yaml';

export function rulesWith(texts: readonly HostileText[]): HostileRules {
  const set = {
    ...{ kind: 'check-set', id: 'hostile', version: '1', status: 'unverified', source: 'made for this test' },
    checks: texts.map(checkOf),
  };
  const documents = [...shippedTexts, { file: HOSTILE_RULES, text: JSON.stringify(set) }];
  return { rules: rulesOf(documents, shipped), texts: documents };
}

/** @param reviewed under no brief: it has the keys that concessions and comments go by */
export function briefWith(texts: readonly HostileText[], rules: RuleSet, reviewed?: Report): ReadBrief {
  const keys = reviewed?.findings.filter(({ outcome }) => outcome === 'failed').map(({ key }) => key) ?? [];
  const said = keys.length === 0 ? [] : texts.map((text, i) => ({ text, key: keys[i % keys.length]! }));
  // A brief can't name what has characters that no brief may hold.
  const named = texts.filter((text) => !REFUSED.test(text.at('duct')));
  const brief = {
    ...{ kind: 'project-brief', id: 'hostile', version: '1' },
    facts: {
      ductProperties: [{ set: 'Hostile', property: 'Strategy' }],
      protections: named.map((text) => ({
        ...{ duct: nameOf(text, 'duct'), kind: 'blanket', layers: 1, integrity: 60, insulation: 60 },
        evidence: shortened(text, 'evidence', 1000),
      })),
      ratings: named.map((text) => ({
        ...{ barrier: `${nameOf(text, 'wall')} 2`.slice(0, 200), rating: '-/90/90' },
        ...{ drawing: shortened(text, 'drawing', 200), revision: shortened(text, 'revision', 200) },
      })),
    },
    choices: {
      // Changes are proven for hundreds of places elsewhere.
      changes: { ductBy: 0, widenBy: 0, rebuildBy: 0, newOpenings: false },
      jurisdiction: shortened(texts[0]!, 'jurisdiction', 200),
      edition: texts.slice(0, 20).map((text) => shortened(text, 'jurisdiction', 200)),
      systems: named.map((text) => ({ system: nameOf(text, 'system'), dampers: 'allowed' })),
      access: named.map((text) => ({
        ...{ system: nameOf(text, 'system'), spacing: 500, source: shortened(text, 'accessSource', 1000) },
      })),
      concessions: said.slice(0, keys.length).map(({ text, key }) => ({
        ...{ key, reason: shortened(text, 'reason', 1000), grantedBy: shortened(text, 'grantedBy', 200) },
        ...{ role: shortened(text, 'role', 200), reference: shortened(text, 'reference', 200) },
        ...{ date: '2026-01-01', measured: null, limit: null },
      })),
      comments: said.map(({ text, key }) => ({
        ...{ key, text: shortened(text, 'comment', 4000), author: shortened(text, 'author', 200), date: '2026-01-01' },
      })),
    },
  };
  const file = texts[texts.length >> 1]!.at('briefFile').slice(0, 200);
  return briefOf(file, new TextEncoder().encode(JSON.stringify(brief)), rules);
}

/** Names in a brief may have 200 characters; one that is longer in the model is not found by it. */
const nameOf = (text: HostileText, place: string): string => text.at(place).slice(0, 200);
