import { it } from 'vitest';
import { brief, holdMutants } from './mutants.js';

it('holds for mutants 151 to 300 under the demonstration brief', { timeout: 900_000 }, () =>
  holdMutants(brief, 150, 300),
);
