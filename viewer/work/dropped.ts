/** What was dropped or picked, by ending: what the page is asked to do with it. */
export type Dropped =
  | {
      readonly kind: 'check';
      readonly models: readonly File[];
      readonly brief: File | null;
      /** report.json, whose keys and tags are carried over. */
      readonly previous: File | null;
    }
  | { readonly kind: 'open'; readonly report: File; readonly facts: File | null; readonly geometry: File | null }
  | { readonly kind: 'topics'; readonly file: File }
  /** One clear line: what, and what to do. */
  | { readonly kind: 'refused'; readonly why: string };

const ENDINGS = {
  models: /\.(ifc|ifczip)$/i,
  briefs: /\.ya?ml$/i,
  reports: /(^|[^a-z])report[^/]*\.json$/i,
  facts: /(^|[^a-z])facts[^/]*\.json$/i,
  geometry: /\.glb$/i,
  topics: /\.(bcf|bcfzip)$/i,
} as const;
type Group = keyof typeof ENDINGS;

/** What a picker offers. */
export const ACCEPTED = '.ifc,.ifczip,.yaml,.yml,.json,.glb,.bcf,.bcfzip';

export const CAN_BE_DROPPED =
  'drop IFC files (.ifc, .ifczip) with a project brief (.yaml) or an earlier report.json; or a report.json with its facts.json and geometry.glb; or a BCF file (.bcf)';

/** @param isOpen whether a report is open, which a BCF file needs */
export function droppedIs(files: readonly File[], isOpen: boolean): Dropped {
  const refused = (why: string): Dropped => ({ kind: 'refused', why });
  const groups: Record<Group, File[]> = { models: [], briefs: [], reports: [], facts: [], geometry: [], topics: [] };
  for (const file of files) {
    const group = (Object.keys(ENDINGS) as Group[]).find((one) => ENDINGS[one].test(file.name));
    if (!group) return refused(`${file.name} is nothing that can be read here; ${CAN_BE_DROPPED}.`);
    groups[group].push(file);
  }
  const twice = (['briefs', 'reports', 'facts', 'geometry', 'topics'] as const).find((one) => groups[one].length > 1);
  if (twice)
    return refused(`${groups[twice].map(({ name }) => name).join(' and ')} are of one kind; drop one of them.`);
  const { models, briefs, reports, facts, geometry, topics } = groups;
  const only = (file: File | undefined): File | null => file ?? null;
  if (topics.length > 0) {
    if (files.length > 1) return refused(`${topics[0]!.name} is read by itself; drop it alone.`);
    if (!isOpen) return refused(`${topics[0]!.name} speaks of findings; open the report that they are in first.`);
    return { kind: 'topics', file: topics[0]! };
  }
  if (models.length > 0) return { kind: 'check', models, brief: only(briefs[0]), previous: only(reports[0]) };
  if (briefs.length > 0) return refused(`${briefs[0]!.name} is a brief without models; drop the IFC files with it.`);
  if (reports.length === 0)
    return refused(
      `${files.map(({ name }) => name).join(' and ') || 'Nothing'} can not be opened alone; ${CAN_BE_DROPPED}.`,
    );
  return { kind: 'open', report: reports[0]!, facts: only(facts[0]), geometry: only(geometry[0]) };
}
