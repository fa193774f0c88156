import { it } from 'vitest';
import { brief, holdMutants } from './mutants.js';

it('holds for mutants 1 to 150 under the demonstration brief', { timeout: 900_000 }, () => holdMutants(brief, 0, 150));
