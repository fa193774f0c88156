import { expect, it } from 'vitest';
import { templateProblem } from '../../src/rules/template.js';

it('finds a curly bracket that stands alone, wherever it stands', () => {
  const at = (template: string) => templateProblem(template, 'penetration')?.offset;
  expect(at('Skew {measured}, {limit}.')).toBeUndefined();
  expect(at('{ skew')).toBe(0);
  expect(at('} skew')).toBe(0);
  expect(at('{measured} deg}')).toBe(14);
  expect(at('Skew {mesured}')).toBe(5);
});
