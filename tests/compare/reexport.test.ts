/**
 * Keys that survive a re-export: the demo building and generated ones, edited as authors edit and exported again under
 * new GlobalIds. No false match, and at least 98 % of what is in both revisions known again.
 */
import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { deleted, type Edit, moved, reordered, resized, together } from '../reexport.js';
import { edited, type Measured, measured, reportOf } from './revisions.js';
import { towers, traps } from './towers.js';

const RECALL = 0.98;
const { files } = demoBuilding();

// So far that the dampers still stand in the one, and beyond the other's own thickness.
const WALL: Edit = together(moved('Kitchen wall south', [0, -15, 0]), moved('Kitchen wall west', [-150, 0, 0]));
const DUCT: Edit = resized('SA-F-3', 500, 250);
const RUN: Edit = deleted('KX-G-1');
const EDITS: readonly (readonly [string, { readonly [file: string]: Edit }])[] = [
  ['nothing else', {}],
  ['a wall moved', { 'architecture.ifc': WALL }],
  ['a duct resized', { 'services.ifc': DUCT }],
  ['a duct deleted', { 'services.ifc': RUN }],
  ['lines in another order', { 'architecture.ifc': reordered, 'services.ifc': reordered }],
  ['all at once', { 'architecture.ifc': together(WALL, reordered), 'services.ifc': together(DUCT, RUN, reordered) }],
];

const isGood = ({ common, kept, wrong, lost }: Measured, atLeast = 20) => {
  expect(wrong).toEqual([]);
  expect(common).toBeGreaterThan(atLeast);
  expect(kept / common, lost.join('; ')).toBeGreaterThanOrEqual(RECALL);
};

it.each(EDITS)('the demo under new GlobalIds and file names, %s', async (_, edits) => {
  isGood(await measured(files, edits, 'again', (name) => (name === 'services.ifc' ? 'A-services.ifc' : name)));
});

it.each(towers())('%s', { timeout: 120_000 }, async (_, built, edits) => {
  isGood(await measured(built, edits, 'again'), 60);
});

it.each(traps())('is not misled by %s', { timeout: 120_000 }, async (_, built, edits) => {
  const { common, wrong } = await measured(built, edits, 'again');
  expect(common).toBeGreaterThan(60);
  expect(wrong).toEqual([]);
});

it('goes by names where they tell', async () => {
  const [, files, edits] = traps().find(([what]) => what === 'rows named, shifted by 300')!;
  expect(await measured(files, edits, 'again')).toMatchObject({ common: 70, kept: 70, wrong: [], lost: [] });
});

it('knows a run again whose damper no longer stands in the wall', async () => {
  const before = await reportOf(files);
  const away = { 'architecture.ifc': moved('Kitchen wall south', [0, -150, 0]) };
  const now = await reportOf(edited(files, away), { previous: before });
  const at = (report: typeof now, duct: string) =>
    report.penetrations.find((p) => p.duct.name === duct && p.barrier.name === 'Kitchen wall south');
  expect(at(now, 'KX-G-4a')!.key).toBe(at(before, 'FD-G-9')!.key);
  expect(at(now, 'KX-G-4a')!.inferredFrom).toMatchObject({ duct: at(before, 'FD-G-9')!.duct.globalId });
});

it('keeps keys over two re-exports, and when the old GlobalIds come back', async () => {
  const first = await reportOf(files);
  const keysOf = (report: typeof first) => report.penetrations.map(({ key }) => key).sort();
  const second = await reportOf(edited(files, {}, 'second'), { previous: first });
  const third = await reportOf(edited(files, {}, 'third'), { previous: second });
  const same = await reportOf(edited(files, {}, 'third'), { previous: third });
  const back = await reportOf(files, { previous: same });
  for (const report of [second, third, same, back]) expect(keysOf(report)).toEqual(keysOf(first));
  expect(third.penetrations.every((p) => p.inferredFrom !== null)).toBe(true);
  expect(same.penetrations.map((p) => p.inferredFrom)).toEqual(third.penetrations.map((p) => p.inferredFrom));
  expect(back.penetrations.every((p) => p.inferredFrom === null)).toBe(true);
  const findings = (report: typeof first) => report.findings.map((f) => `${f.key} ${f.check} ${f.outcome}`).sort();
  for (const report of [second, third, same, back]) expect(findings(report)).toEqual(findings(first));
});
