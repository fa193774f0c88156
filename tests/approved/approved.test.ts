/**
 * What is found and judged is what it was when somebody last looked. Whether that is right, other tests ask, of formulas,
 * tables and laws; this one sees every change, also where none of them looks. Where a change is meant, DEVELOPERS.md says how
 * to look at it and approve it.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Crossings, Federation } from '../../src/model.js';
import { readApproved } from './approved.js';
import { judged, linesOf } from './lines.js';
import { find, MODELS, read } from './models.js';

const approved = readApproved();

it('is known of each model', () => {
  expect([...approved.keys()]).toEqual(MODELS.flatMap(({ name }) => [`${name}, found`, `${name}, judged`]));
});

describe.each(MODELS)('$name', (model) => {
  let federation: Federation;
  let crossings: Crossings;
  // What is judged is found before, so that the test of judging is of nothing else.
  beforeAll(async () => {
    federation = await read(model);
    crossings = find(federation, model);
  });

  it('is found as it was', () => {
    const lines = linesOf(model, { ...find(federation, model) });
    expect(lines).toEqual(approved.get(`${model.name}, found`));
  });

  it('is judged as it was', () => {
    const lines = linesOf(model, judged(federation, crossings, model));
    expect(lines).toEqual(approved.get(`${model.name}, judged`));
  });
});
