import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { documentForm, type Form } from '../../src/rules/document-form.js';
import { ruleJsonSchemas, type SheetBlock, sheetOf } from '../../src/rules/index.js';
import { rules as shipped } from '../shipped-rules.js';
import { checkFields, document as checkSet } from './factories.js';
import { guideExample } from './guide.js';

const cells = (blocks: readonly SheetBlock[]): string[] =>
  blocks.flatMap((block) => ('rows' in block ? block.rows.flatMap((row) => row.cells.map(({ text }) => text)) : []));

/** A document with every field that its form has, each with a value of its own. */
class Filled {
  readonly texts: string[] = [];
  readonly flags: (readonly PropertyKey[])[] = [];
  private next = 1000;
  constructor(private readonly option: number) {}

  value(form: Form, path: readonly PropertyKey[]): unknown {
    const options = form.properties ? undefined : (form.anyOf ?? form.oneOf);
    if (options) return this.value(options[this.option % options.length]!, path);
    if (form.const !== undefined) return form.const;
    if (form.type === 'array') return itemsOf(form).map((item, i) => this.value(item, [...path, i]));
    if (form.type === 'object')
      return Object.fromEntries(
        Object.entries(form.properties ?? {}).map(([key, inner]) => [key, this.value(inner, [...path, key])]),
      );
    if (form.type === 'null') return null;
    this.next += 1;
    if (form.type === 'boolean') {
      this.flags.push(path);
      return false;
    }
    const value = form.type === 'string' ? `word${this.next}` : this.next;
    this.texts.push(String(value));
    return value;
  }
}

/** Of a list of several kinds of items one of each, such as all parts of a detail. */
const itemsOf = ({ items = {} }: Form): readonly Form[] => (items.properties ? [items] : (items.oneOf ?? [items]));

const KINDS = Object.keys(ruleJsonSchemas());
const textOf = (value: unknown) => ({ file: 'own.yaml', text: stringify(value) });

function withTrue(value: unknown, [step, ...rest]: readonly PropertyKey[]): unknown {
  if (step === undefined) return true;
  if (Array.isArray(value)) return value.map((one, i) => (i === step ? withTrue(one, rest) : one));
  return { ...(value as object), [step]: withTrue(Reflect.get(value as object, step), rest) };
}

describe.each(KINDS)('a sheet of a %s', (kind) => {
  it.each([0, 1, 2, 3, 4, 5])('shows every field of the schema, of unions the option %i', (option) => {
    const filled = new Filled(option);
    const value = { ...(filled.value(documentForm(kind), []) as object), kind };
    const sheet = sheetOf(textOf(value), [], []);
    const shown = [...sheet.head.map(([, text]) => text), ...cells(sheet.blocks)].join('\n');
    expect(filled.texts.filter((text) => !shown.includes(text))).toEqual([]);
    // Answers look alike, so each is changed once and must change the sheet. A brief has no status.
    for (const path of option === 0 ? filled.flags : []) {
      const changed = sheetOf(textOf(withTrue(value, path)), [], []);
      expect(JSON.stringify([changed.head, changed.blocks]), path.join('.')).not.toBe(
        JSON.stringify([sheet.head, sheet.blocks]),
      );
    }
  });
});

it('a field that a document leaves out is named as not stated, with what then holds', () => {
  const { blocks } = sheetOf(guideExample(), [], []);
  const rows = blocks.flatMap((block) => ('rows' in block ? block.rows : []));
  const absent = rows
    .filter(({ isGiven }) => !isGiven)
    .map(({ cells: [what, value] }) => `${what?.text}: ${value?.text}`);
  expect(absent.find((line) => line.startsWith('Duct, not stated'))).toMatch(
    /oval; in line \(so: none\); fittings \(so: no\)/,
  );
  expect(absent.filter((line) => line.startsWith('Not stated')).join()).toMatch(/layers; faces \(so: both\)/);
});

it('lines are those of the text, and sources those that stand nearest', () => {
  const document = guideExample();
  const { blocks } = sheetOf(document, [], []);
  const lines = document.text.split('\n');
  const barriers = blocks.flatMap((block) =>
    'rows' in block && block.heads[0]?.text === 'Construction' ? block.rows : [],
  );
  expect(barriers.map(({ cells: all }) => all.map(({ text }) => text))).toEqual([
    ['steel stud', '100 mm', 'wall', ''],
    ['masonry', '140 mm', 'wall', 'report table 2'],
  ]);
  for (const { line } of barriers) expect(lines[line! - 1]).toContain('thicknessAtLeast');
});

it('what a check cites is put beside it, and what its facts mean at the end', () => {
  const [cited] = shipped.published.filter(({ value }) => 'number' in value && value.unit === 'mm');
  const basis = { published: cited!.id, status: 'unverified' };
  const text = checkSet([checkFields({ unit: 'mm', atMost: { published: cited!.id }, basis })]);
  const checks = shipped.checks.filter(({ definition }) => definition.id === 'skew-within-tested-range');
  const shown = cells(sheetOf({ file: 'own.yaml', text }, shipped.published, checks).blocks).join('\n');
  expect(
    cited && 'number' in cited.value && shown.includes(`${cited.value.number} mm; ${cited.says}; ${cited.source}`),
  ).toBe(true);
  expect(shown).toContain('penetration.skew');
  expect(shown).toContain('the skew of the crossing (deg)');
});
