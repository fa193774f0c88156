import type { ProjectFacts } from '../../src/model.js';

/** A brief that says nothing of the models. */
export const NO_FACTS: ProjectFacts = {
  ratingProperties: [],
  ratings: [],
  barriers: [],
  constructions: [],
  damperPurposes: [],
  ductMaterials: [],
  protectionModelled: false,
  protections: [],
};
