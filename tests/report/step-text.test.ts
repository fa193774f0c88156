/** Values as ISO 10303-21 wants them, and the strings that our reader is held to, written and read again. */
import { describe, expect, it } from 'vitest';
import { integer, Raw, realText, StepText, stringText, typed } from '../../src/report/step-text.js';

// ISO 10303-21: a real has a decimal point, before any exponent too.
it.each([
  [0, '0.'],
  [-0, '0.'],
  [3000, '3000.'],
  [-0.5, '-0.5'],
  [1e-7, '1.E-7'],
  [1.5e-7, '1.5E-7'],
  [2.5e21, '2.5E21'],
])('the real %d is %s', (value, text) => {
  expect(realText(value)).toBe(text);
});

it('refuses what is no number', () => {
  expect(() => realText(Number.NaN)).toThrow(RangeError);
  expect(() => realText(Number.POSITIVE_INFINITY)).toThrow(RangeError);
  expect(() => integer(1.5)).toThrow(RangeError);
});

// buildingSMART, string encoding; ISO 10303-21; see tests/reference/step-strings.test.ts.
it.each([
  ['Ä', "'\\X2\\00C4\\X0\\'"],
  ['αβγ', "'\\X2\\03B103B203B3\\X0\\'"],
  ["\\ '", "'\\\\ '''"],
  ['–/120/120', "'\\X2\\2013\\X0\\/120/120'"],
  ['', "''"],
])('the string %s is %s', (value, text) => {
  expect(stringText(value)).toBe(text);
});

describe('a file', () => {
  it('numbers its lines, writes equal points once, and ends as the reader asks', () => {
    const step = new StepText();
    const point = step.addShared('IfcCartesianPoint', [1, 2.5, 0]);
    expect(step.addShared('IfcCartesianPoint', [1, 2.5, 0])).toBe(point);
    step.add('IfcThing', point, null, 'a', new Raw('.X.'), typed('IfcLabel', 'b'));
    const text = step.finish({
      schema: 'IFC4',
      descriptions: ['d'],
      fileName: 'f',
      time: '2026-01-01T00:00:00',
      system: 's',
    });
    expect(text).toContain("#1=IFCCARTESIANPOINT((1.,2.5,0.));\n#2=IFCTHING(#1,$,'a',.X.,IFCLABEL('b'));\nENDSEC;");
    expect(text.startsWith('ISO-10303-21;\n') && text.endsWith('END-ISO-10303-21;\n')).toBe(true);
  });
});
