import { it } from 'vitest';
import { demoBrief } from '../shipped-rules.js';
import { holdMutants } from './mutants.js';

it('holds for mutants 1 to 100 under the demonstration brief', { timeout: 900_000 }, () =>
  holdMutants(demoBrief, 0, 100),
);
