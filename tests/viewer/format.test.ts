import { expect, it } from 'vitest';
import { level } from '../../viewer/format.js';

it('writes levels as drawings do: a sign, two decimals, and no sign of a hair under zero', () => {
  const written = [3400, 0, -0.001, -4, -3600].map((elevation) => level(elevation, 'en-GB').replace(/\s/, ' '));
  expect(written).toEqual(['+3.40 m', '+0.00 m', '+0.00 m', '+0.00 m', '\u22123.60 m']);
});
