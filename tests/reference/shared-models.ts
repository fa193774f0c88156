/** Real IFC models that lie beside the repository, where they are there. Made by others; never copied in here. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { ModelInput } from '../../src/read/file-reader.js';

export const MODELS = resolve('..', 'shared', 'models');
export const hasModels = existsSync(MODELS);
if (!hasModels) process.stdout.write('Tests on real models are skipped: ../shared/models is not there.\n');

export const modelFiles: readonly string[] = hasModels
  ? readdirSync(MODELS)
      .filter((name) => name.endsWith('.ifc'))
      .sort()
  : ['(no shared models)'];

export const modelInput = (name: string): ModelInput => ({ name, bytes: readFileSync(join(MODELS, name)) });
