import { expect, it } from 'vitest';
import { tokenise } from '../../src/fire-rating/tokens.js';

const texts = (text: string) => tokenise(text).map((token) => token.text);

it('takes a fraction only where no other number is beside it', () => {
  expect(texts('1 1/2')).toEqual(['1', '1/2']);
  expect(texts('1½')).toEqual(['1', '1/2']);
  expect(texts('11/2')).toEqual(['11', '/', '2']);
  expect(texts('1/20')).toEqual(['1', '/', '20']);
  expect(texts('1/2/3')).toEqual(['1', '/', '2', '/', '3']);
  expect(texts('-/1/2')).toEqual(['-', '/', '1', '/', '2']);
});
it('knows arrows from dashes, and what is glued', () => {
  expect(texts('i<->o i-->o \u2212/60')).toEqual(['I', '↔', 'O', 'I', '→', 'O', '-', '/', '60']);
  expect(tokenise('EI1 30').map(({ glued }) => glued)).toEqual([false, true, false]);
});
it('drops nothing but white space', () => {
  expect(texts('\u00a060\u3000ｍｉｎ (?)🔥\ud800')).toEqual(['60', 'MIN', '(', '?', ')', '🔥', '\ud800']);
});
