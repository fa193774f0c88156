/** Names of materials to classes of construction. The names are common practice, no source. */
import { describe, expect, it } from 'vitest';
import { constructionOf } from '../../src/read/construction.js';

const layers = (...names: string[]) => names.map((material) => ({ material, thickness: undefined }));

describe('constructionOf', () => {
  it.each([
    [['Plasterboard', 'Steel studs', 'Plasterboard'], 'steelStud'],
    [['Gypsum Wall Board', 'Metal - Stud Layer', 'Gypsum Wall Board'], 'steelStud'],
    [['Softwood stud'], 'timberStud'],
    [['Concrete blocks'], 'masonry'],
    [['Reinforced concrete'], 'concrete'],
    [['Stahlbeton C30/37'], 'concrete'],
    [['Porenbeton'], 'aeratedConcrete'],
    [['Aerated concrete'], 'aeratedConcrete'],
    [['Hollow-core slab, concrete'], 'hollowCore'],
    [['Brick, common', 'Plaster'], 'masonry'],
    [['Plasterboard'], 'unknown'],
    [['Brick', 'Reinforced concrete'], 'unknown'],
  ])('%j is %s', (materials, construction) => {
    expect(constructionOf(layers(...materials), [])).toBe(construction);
  });

  it('asks the names only where the layers say nothing', () => {
    expect(constructionOf(layers('Default'), ['Basic Wall: metal stud 92 mm'])).toBe('steelStud');
    expect(constructionOf(layers('Brick'), ['Concrete wall'])).toBe('masonry');
    expect(constructionOf([], [])).toBe('unknown');
  });

  it("puts a project's own words first", () => {
    expect(constructionOf(layers('Type 7 concrete'), [], [{ words: ['TYPE 7'], construction: 'shaftWall' }])).toBe(
      'shaftWall',
    );
  });
});
