import type { RuleDocumentText } from './load.js';
import { type ProjectBrief, ProjectBriefSchema } from './project-brief.js';
import { requireBriefSense, requireKnownSystems } from './project-brief-sense.js';
import type { RuleSet } from './rule-set.js';
import { parseBySchema } from './schema-issues.js';
import { readYaml, type YamlSource } from './yaml-source.js';

/**
 * Reads a project brief. With `rules`, what it chooses must be in them.
 * @throws RuleDocumentError for the first thing that is wrong
 */
export function loadBrief(
  { file, text }: RuleDocumentText,
  rules?: Pick<RuleSet, 'systems' | 'dampers'>,
): ProjectBrief {
  const source = readYaml(file, text);
  requireKind(source);
  const brief = parseBySchema(source, ProjectBriefSchema);
  requireBriefSense(source, brief);
  if (rules) requireKnownSystems(source, brief, rules);
  return brief;
}

function requireKind({ value, errorAt }: YamlSource): void {
  const kind = typeof value === 'object' && value !== null && 'kind' in value ? value.kind : undefined;
  if (typeof kind !== 'string' || kind === BRIEF) return;
  throw errorAt(['kind'], `this is "${kind}"; a brief is kind: ${BRIEF}; rule documents are given as --rules`);
}

const BRIEF = 'project-brief';
