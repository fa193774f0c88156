/** The list of a portfolio: which federations and revisions are to be reviewed. */
import * as z from 'zod';
import { parseBySchema, readYaml } from '../rules/index.js';

const name = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/, 'letters, digits, points, dashes and underscores, at most 80 of them');
const path = z.string().min(1);

const job = z.strictObject({
  name: name.describe('Of the folder that its outputs go to; each once.'),
  project: z.string().min(1).optional().describe('What its revisions are shown together by; left out: its name.'),
  revision: z.string().min(1).max(20).optional().describe('Of the models.'),
  models: z.array(path).min(1).describe('IFC files that belong together; paths go from where the list stands.'),
  projectBrief: path.optional(),
  rules: z.array(path).min(1).optional().describe('Rule documents instead of the shipped ones.'),
  previous: name.optional().describe('The job of the revision before, further up: its keys and tags are carried over.'),
});

export const PortfolioListSchema = z.strictObject({
  kind: z.literal('portfolio'),
  id: name,
  write: z.string().min(1).default('json').describe('Outputs of each job, as check --write takes them.'),
  jobs: z.array(job).min(1),
});

export type PortfolioList = z.infer<typeof PortfolioListSchema>;
export type ListedJob = PortfolioList['jobs'][number];

/** Room for some 50,000 jobs. */
const MOST_CHARACTERS = 16_000_000;

/** @throws RuleDocumentError with line and column */
export function readPortfolioList(file: string, text: string): PortfolioList {
  const source = readYaml(file, text, MOST_CHARACTERS);
  const list = parseBySchema(source, PortfolioListSchema);
  const known = new Set<string>();
  for (const [i, one] of list.jobs.entries()) {
    if (known.has(one.name)) throw source.errorAt(['jobs', i, 'name'], `there is another job "${one.name}"`);
    // Only one further up: so no two can wait for each other.
    if (one.previous !== undefined && !known.has(one.previous))
      throw source.errorAt(['jobs', i, 'previous'], `no job further up is called "${one.previous}"`);
    known.add(one.name);
  }
  return list;
}

/** JSON Schema 2020-12 of a list, for completion and checks in editors. */
export const portfolioListJsonSchema = (): Record<string, unknown> =>
  z.toJSONSchema(PortfolioListSchema, { target: 'draft-2020-12', io: 'input' });
