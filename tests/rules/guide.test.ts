import { describe, expect, it } from 'vitest';
import { loadRules, notesOn, runExamples, sheetOf } from '../../src/rules/index.js';
import { rules as shipped } from '../shipped-rules.js';
import { guideExample } from './guide.js';

describe('the example of the guide for writing a tested system', () => {
  const document = guideExample();
  const rules = loadRules([document]);

  it('loads, is stamped as invented, and its examples run', () => {
    expect(rules.documents).toMatchObject([{ id: 'example-blanket', status: 'demonstration' }]);
    expect(runExamples(rules).map(({ ok, expected, got }) => ({ ok, expected, got }))).toEqual(
      runExamples(rules).map(({ expected }) => ({ ok: true, expected, got: expected })),
    );
    expect(runExamples(rules).length).toBeGreaterThan(2);
  });

  it('has no overlap and no hole', () => {
    const notes = notesOn([document], rules, { rules: shipped, texts: [] });
    expect(notes.filter(({ kind }) => kind !== 'unused')).toEqual([]);
  });

  it('gives a sheet with all of its limits', () => {
    const words = JSON.stringify(sheetOf(document, [], []).blocks);
    for (const limit of ['longest side 1000 mm', '140 mm', '120 min', '300 mm', 'report table 2'])
      expect(words).toContain(limit);
  });
});
