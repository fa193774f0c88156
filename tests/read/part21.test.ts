/**
 * The clear text encoding of ISO 10303-21, read from its bytes. Each construct by the text of the standard (from memory),
 * and every attribute of every instance of whole files against web-ifc, which has a parser of its own.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import * as WebIFC from 'web-ifc';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { unpack } from '../../src/read/container.js';
import { Part21 } from '../../src/read/part21.js';
import { Reference, Typed } from '../../src/read/part21-values.js';
import { type Line, StepFile } from '../../src/read/step-file.js';
import { hasModels, modelFiles, modelInput } from '../reference/shared-models.js';

const parsed = (data: string) =>
  new Part21(new TextEncoder().encode(`ISO-10303-21;\nDATA;\n${data}\nENDSEC;`), (text) => text.replaceAll("''", "'"));
const valuesOf = (text: string) => parsed(`#7=IFCTHING(${text});`).arguments(7);
const ref = (id: number) => new Reference(id);

/** What stands where a value should and is none keeps its place, so that no other takes it. */
const NO_VALUE = { name: '', value: null };

describe('a value', () => {
  it.each<[string, unknown]>([
    ['$', null],
    ['*', null],
    ['12', 12],
    ['-12', -12],
    ['+3', 3],
    ['1.', 1],
    ['-2.5E-3', -0.0025],
    ['1.5E+03', 1500],
    ['0.1', 0.1],
    ['1.7976931348623157E308', Number.MAX_VALUE],
    ['4.9E-324', Number.MIN_VALUE],
    ['0.1000000000000000055511151231257827', 0.1],
    ['123456789012345678901234567890.', 1.2345678901234568e29],
    ['1.E999', Number.POSITIVE_INFINITY],
    ["'it''s'", "it's"],
    ["''", ''],
    ["';)/*#1'", ';)/*#1'],
    ["'Wärme'", 'Wärme'],
    ['.T.', true],
    ['.F.', false],
    ['.U.', undefined],
    ['.SOLIDWALL.', 'SOLIDWALL'],
    ['"0F3"', '0F3'],
    ['#12', ref(12)],
    ['()', []],
    ['((1,2),(),$)', [[1, 2], [], null]],
    ["IFCLABEL('x')", new Typed('IFCLABEL', 'x')],
    ['IFCLINEINDEX((1,2))', new Typed('IFCLINEINDEX', [1, 2])],
    ['IFCBOOLEAN(.T.)', new Typed('IFCBOOLEAN', true)],
    ['IFCLABEL($)', new Typed('IFCLABEL', null)],
  ])('%s', (text, value) => {
    expect(valuesOf(text)).toEqual([value]);
    expect(valuesOf(` 1 ,/* one, (two) */\n${text}\t,\r\n.X.`)).toEqual([1, value, 'X']);
  });

  it('rounds every decimal as the language itself does', () => {
    let seed = 7;
    const next = () => {
      seed = (seed * 48271) % 2147483647;
      return seed;
    };
    for (let i = 0; i < 20_000; i++) {
      const digits = `${next()}${next()}`.slice(0, 1 + (next() % 19));
      const text = `${digits.slice(0, -3)}.${digits.slice(-3)}E${(next() % 60) - 30}`;
      if (text.startsWith('.')) continue;
      expect(valuesOf(text), text).toEqual([Number(text)]);
    }
  });
});

describe('an instance', () => {
  it('is found by id and by keyword, in the order of the file', () => {
    const file = parsed("#3=IFCWALL('a');/* #4=IFCWALL(); */ # 9 = IFCSLAB ( 'b;' ) ;\n#4294967299=IFCWALL('c');");
    expect(file.instances('IFCWALL')).toEqual([3, 4294967299]);
    expect([3, 9, 4, 4294967299].map((id) => file.keyword(id))).toEqual(['IFCWALL', 'IFCSLAB', '', 'IFCWALL']);
    expect(file.arguments(9)).toEqual(['b;']);
    expect(file.arguments(4294967299)).toEqual(['c']);
    expect(file.arguments(4)).toBeUndefined();
  });

  it.each([
    ['without a closing bracket', '#1=IFCWALL(1,(2;\n#2=IFCSLAB(3);', [1, [2]]],
    ['with signs that mean nothing', '#1=IFCWALL(&,@ 5,7);#2=IFCSLAB(3);', [NO_VALUE, NO_VALUE, 7]],
    ['with a value left out', '#1=IFCWALL(1.,,2.);#2=IFCSLAB(3);', [1, NO_VALUE, 2]],
    ['with two values in one place', '#1=IFCWALL(-1.#IND,400.);#2=IFCSLAB(3);', [NO_VALUE, 400]],
    ['of more brackets than a stack holds', `#1=IFCWALL(${'('.repeat(200_000)};#2=IFCSLAB(3);`, undefined],
  ])('%s does not reach the next', (_, data, values) => {
    const file = parsed(data);
    if (values) expect(file.arguments(1)).toEqual(values);
    else expect(() => file.arguments(1)).not.toThrow();
    expect(file.arguments(2)).toEqual([3]);
  });

  it.each([
    ["#1=IFCWALL('no end", /text in its data has no end/],
    ['#1=IFCWALL(1); /* no end', /comment in its data has no end/],
    // ISO 10303-21: an instance name stands once in a file.
    ['#1=IFCWALL(1);#2=IFCSLAB(2);#1=IFCWALL(1);', /has two instances #1$/],
    ['#4000000000=IFCWALL(1);#4000000000=IFCSLAB(2);', /has two instances #4000000000$/],
  ])('that has no end, or is there twice, ends the reading: %s', (data, message) => {
    expect(() => parsed(data)).toThrow(message);
  });
});

/** Derived, so that no file states them, yet web-ifc gives values; and a list that it takes for a number. */
const MADE_UP = new Set([
  'IFCSIUNIT.Dimensions',
  'IFCGEOMETRICREPRESENTATIONSUBCONTEXT.CoordinateSpaceDimension',
  'IFCGEOMETRICREPRESENTATIONSUBCONTEXT.WorldCoordinateSystem',
  'IFCMATERIALPROFILEWITHOFFSETS.OffsetValues',
]);

describe('whole files read as by web-ifc', () => {
  const api = new WebIFC.IfcAPI();
  beforeAll(async () => {
    await api.Init();
    api.SetLogLevel(WebIFC.LogLevel.LOG_LEVEL_OFF);
  });

  const compare = async (name: string, bytes: Uint8Array) => {
    const step = unpack(name, bytes);
    const [ours, model] = [await StepFile.open(step), api.OpenModel(step.bytes, { TAPE_SIZE: 4 << 20 })];
    const ids = [...api.GetAllLines(model)];
    const differences: string[] = [];
    let attributes = 0;
    for (const id of ids) {
      const keyword = api.GetNameFromTypeCode(api.GetLineType(model, id)).toUpperCase();
      if (ours.entity(id) !== keyword) differences.push(`#${id} is ${ours.entity(id)}, not ${keyword}`);
      const [line, theirs] = [ours.line(id), api.GetLine(model, id) as Record<string, unknown>];
      for (const [key, value] of Object.entries(theirs)) {
        if (key === 'expressID' || key === 'type' || MADE_UP.has(`${keyword}.${key}`)) continue;
        attributes++;
        const [a, b] = [plain(line?.[key]), theirPlain(value)];
        if (!isSame(a, b)) differences.push(`#${id} ${keyword}.${key}: ${JSON.stringify(a)}, not ${JSON.stringify(b)}`);
      }
    }
    api.CloseModel(model);
    ours.close();
    expect(differences.slice(0, 5)).toEqual([]);
    expect(ids.length).toBeGreaterThan(20);
    expect(attributes).toBeGreaterThan(ids.length);
  };

  it.each(demoBuilding().files)('$name', ({ name, text }) => compare(name, new TextEncoder().encode(text)));

  it.skipIf(!hasModels).each(modelFiles)('%s', (name) => compare(name, modelInput(name).bytes), 300_000);
});

function plain(x: Line[string]): unknown {
  if (x instanceof Reference) return { id: x.id };
  if (x instanceof Typed) return plain(x.value);
  return Array.isArray(x) ? x.map(plain) : (x ?? null);
}

/** web-ifc's values: references of type 5, everything else with its value inside, lists of a type's own as values. */
function theirPlain(x: unknown): unknown {
  if (Array.isArray(x)) return x.map(theirPlain);
  if (typeof x !== 'object' || x === null) return x ?? null;
  const { type, value } = x as { readonly type?: number; readonly value?: unknown };
  return type === 5 && typeof value === 'number' ? { id: value } : theirPlain(value);
}

/** web-ifc gives an empty list for one that is omitted. */
const isSame = (a: unknown, b: unknown): boolean =>
  JSON.stringify(a) === JSON.stringify(b) || (a === null && Array.isArray(b) && b.length === 0);
