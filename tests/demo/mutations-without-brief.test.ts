import { it } from 'vitest';
import { holdMutants } from './mutants.js';

it('holds for 100 mutants without a brief', { timeout: 900_000 }, () => holdMutants(undefined, 0, 100));
