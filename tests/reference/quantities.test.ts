/**
 * The models' own numbers: where real models state the width of their walls, the depth of their slabs or the gross volume
 * of either, ours agree within 1 %, or the difference is explained here element by element. None of the real models at
 * hand states a quantity of a duct.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { statedQuantities } from './quantities.js';
import { hasModels, modelInput } from './shared-models.js';
import { rawElements, solidOf, startJudges } from './solids.js';

const AGREES = 0.01;

/** `mm`: of the lengths as written; the one file states them in metres though its unit is the millimetre. */
const FILES = [
  { file: 'bcf-architectural.ifc', mm: 1000, mm3: 1e9, widths: 15 },
  { file: 'classroom.ifc', mm: 1, mm3: 1, widths: 5 },
  { file: 'pcert-architecture.ifc', mm: 1, mm3: 1e9, widths: 7 },
  { file: 'pcert-structural.ifc', mm: 1, mm3: 1e9, widths: 4 },
] as const;

/** GlobalId → why its stated gross volume is not that of its body. */
const OTHER_VOLUME: Readonly<Record<string, string>> = {
  '3A3Tihl61FQRUYE_9VB72N':
    'stated less its openings: 3.377 m³ less a door of 1010 × 2110 and three windows of 1210 × 500, 125 deep, is 2.884 m³',
  '3A3Tihl61FQRUYE_9VB72M':
    'stated less its openings: 10.171 m³ less three windows of 900 × 1200, 315.5 deep, is 9.149 m³',
  '1E8YkwPMfB$h99jtn_uAjI': 'the surface of its body is not closed, so it has no volume',
};

beforeAll(startJudges);

describe.skipIf(!hasModels)('the models’ own numbers', () => {
  it.each(FILES)('$file: width of walls, depth of slabs', async ({ file, mm, widths }) => {
    const stated = await statedQuantities(modelInput(file).bytes);
    const { barriers } = findPenetrations(await readFederation([modelInput(file)]));
    const compared = stated
      .filter(({ name }) => /^(Nominal)?Width$|^Depth$/.test(name))
      .flatMap(({ globalId, value }) => {
        const barrier = barriers.find((b) => b.globalId === globalId);
        return barrier ? [{ globalId, stated: value * mm, measured: barrier.thickness }] : [];
      });
    expect(compared.length).toBe(widths);
    expect(compared.filter((c) => !(Math.abs((c.measured ?? 0) / c.stated - 1) <= AGREES))).toEqual([]);
  });

  it.each(FILES)('$file: gross volumes, by the judge of solids', async ({ file, mm3 }) => {
    const { bytes } = modelInput(file);
    const { barriers } = await readFederation([modelInput(file)]);
    const volumes = (await statedQuantities(bytes)).filter(
      ({ name, globalId }) => name === 'GrossVolume' && barriers.some((b) => b.globalId === globalId),
    );
    const raw = rawElements(bytes, new Set(volumes.map((v) => v.globalId)));
    const off = volumes.filter(({ globalId, value }) => {
      const element = raw.get(globalId);
      const volume = element && solidOf(element, element.min)?.volume();
      return !(Math.abs((volume ?? Number.NaN) / (value * mm3) - 1) <= AGREES);
    });
    const isHere = (id: string) => volumes.some((v) => v.globalId === id);
    expect(off.map((v) => v.globalId).sort()).toEqual(Object.keys(OTHER_VOLUME).filter(isHere).sort());
  });
});
