import { describe, expect, it } from 'vitest';
import { droppedIs } from '../../viewer/work/dropped.js';

const files = (...names: string[]): File[] => names.map((name) => new File(['x'], name));
const kinds = (names: readonly string[], isOpen = false) => {
  const dropped = droppedIs(files(...names), isOpen);
  if (dropped.kind === 'check')
    return ['check', ...dropped.models.map(({ name }) => name), dropped.brief?.name, dropped.previous?.name];
  if (dropped.kind === 'open') return ['open', dropped.report.name, dropped.facts?.name, dropped.geometry?.name];
  return [dropped.kind, dropped.kind === 'topics' ? dropped.file.name : dropped.why];
};

describe('what is dropped', () => {
  it.each([
    [
      ['a.ifc', 'B.IFCZIP', 'brief.yml'],
      ['check', 'a.ifc', 'B.IFCZIP', 'brief.yml', undefined],
    ],
    [
      ['report.json', 'a.ifc'],
      ['check', 'a.ifc', undefined, 'report.json'],
    ],
    [['report (1).json'], ['open', 'report (1).json', undefined, undefined]],
    [
      ['facts.json', 'geometry.glb', 'report.json'],
      ['open', 'report.json', 'facts.json', 'geometry.glb'],
    ],
  ])('%j', (names, expected) => {
    expect(kinds(names)).toEqual(expected);
  });

  it('reads a BCF file only into a report that is open', () => {
    expect(kinds(['back.bcf'], true)).toEqual(['topics', 'back.bcf']);
    expect(kinds(['back.bcfzip'])[1]).toMatch(/open the report/);
    expect(kinds(['back.bcf', 'a.ifc'], true)[1]).toMatch(/by itself/);
  });

  it.each([
    [['a.docx']],
    [['a.ifc', 'b.pdf']],
    [['brief.yaml']],
    [['facts.json']],
    [['a.yaml', 'b.yaml', 'c.ifc']],
    [[]],
  ])('%j is refused in one line that says what to do', (names) => {
    const [kind, why] = kinds(names);
    expect(kind).toBe('refused');
    expect(why).toMatch(/^[^\n]+(drop|open)[^\n]+\.$/);
  });
});
