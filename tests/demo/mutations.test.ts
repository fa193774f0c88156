import { it } from 'vitest';
import { brief, holdMutants } from './mutants.js';

it('holds for 300 mutants under the demonstration brief', { timeout: 900_000 }, () => holdMutants(brief, 300));
