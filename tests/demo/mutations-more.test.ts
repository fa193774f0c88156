import { it } from 'vitest';
import { demoBrief } from '../shipped-rules.js';
import { holdMutants } from './mutants.js';

/** What is on its limits in the demo building has no margin then, and a mutant must not give it one. */
const withTolerance = { ...demoBrief, choices: { ...demoBrief.choices, siteTolerance: 5 } };

it('holds for mutants 101 to 200 under the demonstration brief with a site tolerance', { timeout: 900_000 }, () =>
  holdMutants(withTolerance, 100, 200),
);
