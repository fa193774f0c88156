import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { FileWatch } from '../../src/platform/file-watch.js';

let folder: string;
let files: FileWatch;
const at = (...names: string[]) => join(folder, ...names);

async function watching(...names: string[]): Promise<void> {
  files = new FileWatch(
    names.map((name) => at(name)),
    (name) => name.endsWith('.yaml'),
  );
  await files.begin();
}
const told = async () => (await files.next()).paths.map((path) => path.slice(folder.length + 1));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ratedrun-test-'));
  writeFileSync(at('a.ifc'), 'one');
  mkdirSync(at('rules'));
  writeFileSync(at('rules', 'b.yaml'), 'one');
});
afterEach(() => {
  files.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('what is told of files', () => {
  it('is what was written, once', async () => {
    await watching('a.ifc', 'rules');
    const before = performance.now();
    writeFileSync(at('a.ifc'), 'another');
    const change = await files.next();
    expect(change.paths).toEqual([at('a.ifc')]);
    expect(change.noticed).toBeGreaterThanOrEqual(before);
    writeFileSync(at('rules', 'b.yaml'), 'another');
    expect(await told()).toEqual([join('rules', 'b.yaml')]);
  });

  it('is what an editor renames over another, again and again', async () => {
    await watching('a.ifc', 'rules');
    for (const text of ['two', 'three', 'four']) {
      writeFileSync(at('a.ifc~'), text);
      renameSync(at('a.ifc~'), at('a.ifc'));
      expect(await told()).toEqual(['a.ifc']);
      expect(readFileSync(at('a.ifc'), 'utf8')).toBe(text);
    }
  });

  it('is nothing of other files beside them', async () => {
    await watching('a.ifc', 'rules');
    writeFileSync(at('report.json'), '{}');
    writeFileSync(at('rules', 'notes.txt'), 'nothing');
    writeFileSync(at('rules', 'c.yaml'), 'new');
    expect(await told()).toEqual([join('rules', 'c.yaml')]);
  });

  it('is not that a file was gone for a moment, but that it is another now', async () => {
    await watching('a.ifc');
    unlinkSync(at('a.ifc'));
    const change = told();
    const isTold = await Promise.race([change.then(() => true), new Promise((go) => setTimeout(() => go(false), 300))]);
    expect(isTold).toBe(false);
    writeFileSync(at('a.ifc'), 'back');
    expect(await change).toEqual(['a.ifc']);
    expect(existsSync(at('a.ifc'))).toBe(true);
  });

  it('is that a file is gone for good', async () => {
    await watching('rules');
    unlinkSync(at('rules', 'b.yaml'));
    expect(await told()).toEqual([join('rules', 'b.yaml')]);
  });

  it('is what is in a folder that was deleted and made again, at once and later', async () => {
    await watching('rules');
    rmSync(at('rules'), { recursive: true });
    mkdirSync(at('rules'));
    writeFileSync(at('rules', 'b.yaml'), 'again');
    expect(await told()).toEqual([join('rules', 'b.yaml')]);
    writeFileSync(at('rules', 'b.yaml'), 'later still');
    expect(await told()).toEqual([join('rules', 'b.yaml')]);
  });

  it('is all that changed while nobody asked, together', async () => {
    await watching('a.ifc', 'rules');
    writeFileSync(at('a.ifc'), 'another');
    expect(await told()).toEqual(['a.ifc']);
    writeFileSync(at('rules', 'b.yaml'), 'another');
    writeFileSync(at('a.ifc'), 'a third');
    const seen = new Set<string>();
    while (seen.size < 2) for (const path of await told()) seen.add(path);
    expect([...seen].sort()).toEqual(['a.ifc', join('rules', 'b.yaml')]);
  });

  it('comes of a large file when it stays as it is', async () => {
    await watching('a.ifc');
    for (let part = 1; part <= 4; part++) {
      writeFileSync(at('a.ifc'), Buffer.alloc(part * 2 ** 20));
      await new Promise((go) => setTimeout(go, 60));
    }
    expect(await told()).toEqual(['a.ifc']);
    expect(readFileSync(at('a.ifc')).length).toBe(4 * 2 ** 20);
  });
});
