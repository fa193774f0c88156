import { mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import type { Federation } from '../../src/model.js';
import { foundStore } from '../../src/platform/found-store.js';
import { programVersions } from '../../src/platform/program-versions.js';
import type { FileReader } from '../../src/read/file-reader.js';
import { readHere } from '../../src/read/read-here.js';
import { writeJson } from '../../src/report/json.js';
import { type FoundStore, findAll } from '../../src/review/found.js';
import { findingUnder, review } from '../../src/review/review.js';
import { constructionRows } from '../../src/rules/index.js';
import { rules } from '../shipped-rules.js';

const folders: string[] = [];
afterAll(() => {
  for (const one of folders) rmSync(one, { recursive: true, force: true });
});
let folder: string;
let problems: string[];
const storeIn = (versions?: string): FoundStore =>
  foundStore(folder, { onProblem: (problem) => problems.push(problem), ...(versions && { versions }) });

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ratedrun-test-'));
  folders.push(folder);
  problems = [];
});

/** What serializing may lose: -0, undefined, typed arrays, a list of many frames. */
const federation = {
  origin: [-0, 1, 2],
  frame: 'engineering',
  models: [],
  airElements: Array.from({ length: 1203 }, (_, i) => ({ globalId: `g${i}`, system: undefined, size: -0 })),
  barriers: [{ bodies: [{ kind: 'mesh', positions: new Float64Array([1, -0, 3]), triangles: new Uint32Array([0]) }] }],
} as unknown as Federation;

describe('what is kept', () => {
  it('comes back as it was, to the sign of a zero', async () => {
    await storeIn().put('federation', 'key', federation);
    const back = await storeIn().get('federation', 'key');
    expect(back).toStrictEqual(federation);
    expect(Object.is(back!.origin[0], -0)).toBe(true);
    expect('system' in back!.airElements[1202]!).toBe(true);
    expect(problems).toEqual([]);
  });

  it('is not given for another key, kind or version of anything', async () => {
    await storeIn().put('federation', 'key', federation);
    expect(await storeIn().get('federation', 'other')).toBeUndefined();
    expect(await storeIn().get('crossings', 'key')).toBeUndefined();
    expect(await storeIn('another program').get('federation', 'key')).toBeUndefined();
    expect(programVersions()).toMatch(/\nweb-ifc \d+\.\d+\.\d+\n/);
    expect(programVersions()).toMatch(/^ratedrun \d+\.\d+\.\d+ [0-9a-f]{64}\n/);
    expect(programVersions()).toContain(process.version);
  });

  it('is as good as not there where a byte of it is another, or it is cut off or longer', {
    timeout: 120_000,
  }, async () => {
    await storeIn().put('federation', 'key', federation);
    const path = join(folder, readdirSync(folder)[0]!);
    const whole = readFileSync(path);
    const without = async (bytes: Uint8Array) => {
      writeFileSync(path, bytes);
      return (await storeIn().get('federation', 'key')) === undefined;
    };
    for (let at = 0; at < whole.length; at += at < 400 ? 1 : 613) {
      const changed = Buffer.from(whole);
      changed[at]! ^= 1 << (at % 8);
      expect(await without(changed), `byte ${at}`).toBe(true);
      expect(await without(whole.subarray(0, at)), `cut off at ${at}`).toBe(true);
    }
    expect(await without(Buffer.from('{"not": "ours"}'))).toBe(true);
    expect(await without(whole)).toBe(false);
  });

  it('is no more than two of each kind, those used last, and leaves nothing unfinished', async () => {
    const store = storeIn();
    for (const [i, key] of ['a', 'b'].entries()) {
      await store.put('federation', key, federation);
      for (const name of readdirSync(folder).filter((one) => one.endsWith('.bin')))
        utimesSync(join(folder, name), new Date(1e12 + i), new Date(1e12 + i));
    }
    writeFileSync(join(folder, '.stopped.tmp'), '');
    utimesSync(join(folder, '.stopped.tmp'), new Date(1e12), new Date(1e12));
    await store.get('federation', 'a');
    await store.put('federation', 'c', federation);
    expect(readdirSync(folder).length).toBe(2);
    expect(await store.get('federation', 'a')).toBeDefined();
    expect(await store.get('federation', 'b')).toBeUndefined();
    expect(await store.get('federation', 'c')).toBeDefined();
  });

  it('is said to be lost where it can not be written, and nothing else happens', async () => {
    rmSync(folder, { recursive: true });
    writeFileSync(folder, 'a file');
    await storeIn().put('federation', 'key', federation);
    expect(problems).toEqual([expect.stringMatching(/^can not be written \(.*\)$/)]);
    expect(await storeIn().get('federation', 'key')).toBeUndefined();
  });
});

describe('a review with what was kept', () => {
  const encoder = new TextEncoder();
  const demo = demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const never: FileReader = () => Promise.reject(new Error('read again'));
  const common = { rules, constructions: constructionRows(rules) };

  it('is the same to the byte, and reads nothing', { timeout: 240_000 }, async () => {
    const b = new ModelBuilder({ fileName: 'a.ifc' });
    b.opening(b.wall(WALL), { ...OPENING, centre: [2900, 0, 2000] });
    b.duct(DUCT);
    const models = [{ name: 'a.ifc', bytes: encoder.encode(b.toString()) }];
    const input = { ...common, models, createdAt: '2026-01-01T00:00:00Z', toolVersion: '0' };
    const made = async (reader: FileReader, store?: FoundStore) => (await review({ ...input, reader, store })).report;
    const without = await made(readHere);
    const first = await made(readHere, storeIn());
    const again = await made(never, storeIn());
    expect(first.summary.outcomes.failed).toBeGreaterThan(0);
    // Proven on a building that is found again.
    expect(again.findings.some(({ change }) => change !== null)).toBe(true);
    const text = (report: typeof first) => new TextDecoder().decode(writeJson(report));
    expect(text(first)).toBe(text(without));
    expect(text(again)).toBe(text(without));
  });

  it('goes by the same, finds again where rules look further, and reads again where input differs', {
    timeout: 240_000,
  }, async () => {
    const input = { ...common, models: demo, ...findingUnder({ rules, brief: undefined }), store: storeIn() };
    const { wide: _, ...found } = await findAll({ ...input, reader: readHere });
    const names = readdirSync(folder).map((name) => name.replace(/-.*/, ''));
    expect(names.sort()).toEqual(['crossings', 'federation']);
    expect(await findAll({ ...input, reader: never })).toStrictEqual(found);
    expect((await findAll({ ...input, reader: never, separation: input.separation + 1 })).wide).toBeDefined();
    const other = [{ words: ['nothing is called so'], construction: 'concrete' }] as const;
    await expect(findAll({ ...input, reader: never, constructions: other })).rejects.toThrow('read again');
    const [first, ...rest] = demo;
    const changed = [{ ...first!, bytes: encoder.encode(`${new TextDecoder().decode(first!.bytes)}\n`) }, ...rest];
    await expect(findAll({ ...input, reader: never, models: changed })).rejects.toThrow('read again');
  });
});
