import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { InputError, unpack } from '../../src/read/container.js';
import { readHere } from '../../src/read/read-here.js';

const good = new ModelBuilder({ fileName: 'good.ifc' }).toString();
const bytes = (text: string) => strToU8(text);

describe('what can not be read gives one sentence with the fault and the mend', () => {
  const noise = Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919 + (i % 13) * 31) % 256);
  it.each<[string, string, Uint8Array, RegExp]>([
    ['empty', 'a.ifc', new Uint8Array(), /is empty/],
    ['noise', 'a.ifc', noise, /does not begin with ISO-10303-21/],
    ['text', 'a.ifc', bytes('Dear Sir or Madam,\nplease find attached'), /does not begin with ISO-10303-21/],
    ['header cut', 'a.ifc', bytes(good.replace(/FILE_SCHEMA.*\n/, '')), /damaged header/],
    ['begins in the data', 'a.ifc', bytes(good.slice(good.indexOf('DATA;'))), /does not begin with ISO-10303-21/],
    ['data cut', 'a.ifc', bytes(good.slice(0, Math.floor(good.length * 0.7))), /cut off/],
    ['zip under the wrong name', 'a.ifc', zipSync({ 'a.ifc': bytes(good) }), /zip archive under another name/],
    ['IFC named as zip', 'a.ifczip', bytes(good), /no zip archive/],
    [
      'other STEP schema',
      'a.ifc',
      bytes(good.replace(/FILE_SCHEMA.*\n/, "FILE_SCHEMA(('AUTOMOTIVE_DESIGN'));\n")),
      /schema AUTOMOTIVE_DESIGN/,
    ],
    ['zip without a model', 'a.ifczip', zipSync({ 'readme.txt': bytes('hello') }), /without an \.ifc file/],
    ['zip with two models', 'a.ifczip', zipSync({ 'a.ifc': bytes(good), 'b.ifc': bytes(good) }), /holds 2 \.ifc files/],
    ['zip cut', 'a.ifczip', zipSync({ 'a.ifc': bytes(good) }).slice(0, 200), /damaged zip archive/],
  ])('%s', (_, name, content, message) => {
    expect(() => unpack(name, content)).toThrow(InputError);
    expect(() => unpack(name, content)).toThrow(message);
    const fault = (() => {
      try {
        unpack(name, content);
      } catch (error) {
        return String(error);
      }
    })();
    expect(fault).not.toContain('\n');
  });

  it('data that is no STEP', async () => {
    const broken = good.replace('DATA;', "DATA;\n#1=IFCWALL('unterminated string,$);");
    await expect(readHere({ name: 'a.ifc', bytes: bytes(broken) }, 'm1')).rejects.toThrow(InputError);
  });

  it('a file without a project', async () => {
    const none = good.replace(/#\d+=IFCPROJECT\(.*\n/, '');
    await expect(readHere({ name: 'a.ifc', bytes: bytes(none) }, 'm1')).rejects.toThrow(/has no IfcProject/);
  });
});

describe('what can be read', () => {
  it('comes out of a zip', () => {
    expect(unpack('a.ifczip', zipSync({ 'folder/a.ifc': bytes(good), 'note.txt': bytes('x') })).bytes).toEqual(
      bytes(good),
    );
  });

  it('may begin with a byte order mark, blanks or a comment', () => {
    for (const start of ['\ufeff', '\r\n  ', '/* made\nby hand */ '])
      expect(unpack('a.ifc', bytes(start + good)).schema).toBe('IFC4');
  });

  it.each(['IFC4_ADD1', 'IFC4_ADD2', 'IFC4X3_TC1', 'IFC4_ADD2_TC1'])(
    'is opened under its base schema: %s',
    async (schema) => {
      const text = good.replace("'IFC4'", `'${schema}'`);
      const step = unpack('a.ifc', bytes(text));
      expect(step.schema).toBe(schema);
      expect(step.bytes.length).toBe(bytes(text).length);
      await expect(readHere({ name: 'a.ifc', bytes: bytes(text) }, 'm1')).resolves.toMatchObject({ schema });
    },
  );
});

describe('when the file was written', () => {
  it.each([
    ['2026-01-01T00:00:00', '2026-01-01T00:00:00'],
    ['2022-09-03T10:36:17+10:00', '2022-09-03T10:36:17+10:00'],
    ['2021-01-04T09:37:45.000Z', '2021-01-04T09:37:45.000Z'],
    ['2021-13-04T09:37:45', null],
    ['04.01.2021 09:37', null],
    ['', null],
  ])('%j is %j', (time, written) => {
    expect(unpack('a.ifc', bytes(good.replace('2026-01-01T00:00:00', time))).writtenAt).toBe(written);
    const quoted = good.replace(/FILE_NAME\('[^']*'/, "FILE_NAME( 'O''Brien.ifc'").replace('2026-01-01T00:00:00', time);
    expect(unpack('a.ifc', bytes(quoted)).writtenAt).toBe(written);
  });
});
