/** What a barrier is built of, as classes of tested construction, from the names of its layers or of itself. */
import type { Construction, MaterialLayer, ProjectFacts } from '../model.js';
import { hasWord } from './value.js';

interface ConstructionWords {
  readonly words: RegExp;
  readonly construction: Construction;
}

/**
 * The first that fits a name counts, so that "concrete block" is masonry and "aerated concrete" is not concrete.
 * Common practice, no source; a project's own names come from its brief.
 */
const WORDS: readonly ConstructionWords[] = [
  { construction: 'shaftWall', words: /shaft ?wall|schachtwand/iu },
  {
    construction: 'steelStud',
    words: /(steel|metal|light gauge)\W*(stud|framing)|metallst(ä|ae)nder|cw-?profil|ossature m(é|e)tal/iu,
  },
  { construction: 'timberStud', words: /(timber|wood|softwood)\W*(stud|framing)|holzst(ä|ae)nder|ossature bois/iu },
  { construction: 'massTimber', words: /cross.?laminated|\bclt\b|mass timber|glulam|brettsperrholz/iu },
  { construction: 'sandwichPanel', words: /sandwich|insulated metal panel/iu },
  { construction: 'aeratedConcrete', words: /aerated|\baac\b|autoclaved|porenbeton|gasbeton|cellulaire/iu },
  { construction: 'hollowCore', words: /hollow.?core|hohldiele|alv(é|e)ol/iu },
  { construction: 'ribbedDeck', words: /metal deck|steel deck|composite deck|ribbed|trapezoidal|bac acier/iu },
  { construction: 'masonry', words: /brick|masonry|block|\bcmu\b|ziegel|mauerwerk|kalksand|parpaing|ma(ç|c)onnerie/iu },
  { construction: 'concrete', words: /concrete|beton|b(é|e)ton|hormig(ó|o)n|calcestruzzo/iu },
];

/** One class among the layers; where layers say nothing, among the names; several or none: unknown, never a guess. */
export function constructionOf(
  layers: readonly MaterialLayer[],
  names: readonly string[],
  own: ProjectFacts['constructions'] = [],
): Construction {
  const classOf = (name: string) =>
    own.find(({ words }) => hasWord(name, words))?.construction ??
    WORDS.find(({ words }) => words.test(name))?.construction;
  for (const texts of [layers.map((layer) => layer.material), names]) {
    const found = new Set(texts.map(classOf).filter((c) => c !== undefined));
    if (found.size === 1) return [...found][0]!;
    if (found.size > 1) return 'unknown';
  }
  return 'unknown';
}
