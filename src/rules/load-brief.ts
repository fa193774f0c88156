import type { RuleDocumentText } from './load.js';
import { type ProjectBrief, ProjectBriefSchema } from './project-brief.js';
import { requireBriefSense, requireKnownSystems } from './project-brief-sense.js';
import type { RuleSet } from './rule-set.js';
import { parseBySchema } from './schema-issues.js';
import { readYaml } from './yaml-source.js';

/**
 * Reads a project brief. With `rules`, what it chooses must be in them.
 * @throws RuleDocumentError for the first thing that is wrong
 */
export function loadBrief(
  { file, text }: RuleDocumentText,
  rules?: Pick<RuleSet, 'systems' | 'dampers'>,
): ProjectBrief {
  const source = readYaml(file, text);
  const brief = parseBySchema(source, ProjectBriefSchema);
  requireBriefSense(source, brief);
  if (rules) requireKnownSystems(source, brief, rules);
  return brief;
}
