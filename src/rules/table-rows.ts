import type { ConstructionWords } from '../model.js';
import type { ServiceRow } from '../strategy/index.js';
import type { RuleSet } from './rule-set.js';

/** All rows of the loaded construction tables, in the order of the documents: what reading is given. */
export const constructionRows = ({ tables }: Pick<RuleSet, 'tables'>): readonly ConstructionWords[] =>
  tables.flatMap(({ rows }) => rows);

/** All rows of the loaded service tables, in the order of the documents. */
export const serviceRows = ({ services }: Pick<RuleSet, 'services'>): readonly ServiceRow[] =>
  services.flatMap(({ rows }) => rows);
