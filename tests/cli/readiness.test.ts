import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { buildBase, file } from '../../fixtures/cases/base.js';
import { INFORMATION_REQUIREMENTS } from '../../src/report/information-requirements.js';
import { hasIdsSchema, validateIds } from '../report/ids-schema.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
writeFileSync(join(folder, 'model.ifc'), file('model.ifc', {}, buildBase).text);

it('writes the information requirements too where --ids names a file', () => {
  const plain = ratedrun(folder, ['readiness', 'model.ifc', '--quiet']);
  const withIds = ratedrun(folder, ['readiness', 'model.ifc', '--quiet', '--ids', 'needs/for-ducts.ids']);
  expect([withIds.code, withIds.err]).toEqual([0, '']);
  expect(withIds.out).toBe(plain.out);
  const ids = readFileSync(join(folder, 'needs', 'for-ducts.ids'), 'utf8');
  for (const { name } of INFORMATION_REQUIREMENTS) expect(ids).toContain(`name="${name}"`);
  if (hasIdsSchema) expect(() => validateIds(ids)).not.toThrow();
});

it('one line says that the file cannot be written there', () => {
  mkdirSync(join(folder, 'taken.ids'));
  const ran = ratedrun(folder, ['readiness', 'model.ifc', '--quiet', '--ids', 'taken.ids']);
  expect([ran.code, ran.out]).toEqual([2, '']);
  expect(ran.err).toMatch(/^ratedrun: .*; choose another (folder|place) with --ids\.\n$/);
});
