import type { Compartment, EnclosureGap } from '../model.js';
import { listed } from '../words/text.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';

/** What is said of each gap in an enclosure, and of each thing that is not known of it. */
const SAYS: { readonly [G in EnclosureGap]: { readonly known: boolean; readonly words: string } } = {
  leak: { known: true, words: 'walls that do not meet' },
  wallHead: { known: true, words: 'a wall that stops short of the structure above' },
  floorOpen: { known: true, words: 'an open floor' },
  floorUnrated: { known: true, words: 'a floor without a rating' },
  ceilingOpen: { known: true, words: 'an open ceiling' },
  ceilingUnrated: { known: true, words: 'a ceiling without a rating' },
  doorUnrated: { known: true, words: 'a door without a rating' },
  wallUnknown: { known: false, words: 'whether all its walls are rated' },
  wallOpening: { known: false, words: 'what closes an empty opening in its walls' },
  floorUnknown: { known: false, words: 'whether its floor is rated' },
  ceilingUnknown: { known: false, words: 'whether its ceiling is rated' },
  doorUnknown: { known: false, words: 'what its doors are rated for' },
};

export function compartmentFacts({ name, shaft, enclosure: { complete, reasons } }: Compartment): FactObject {
  const gaps = [...new Set(reasons.map(({ gap }) => gap))];
  const say = (isKnown: boolean): string | undefined => {
    const words = gaps.filter((gap) => SAYS[gap].known === isKnown).map((gap) => SAYS[gap].words);
    return words.length > 0 ? listed(words) : undefined;
  };
  return known({ name, calledShaft: shaft === true, enclosed: complete, gaps: say(true), unknowns: say(false) });
}
