/** What is laid on bends, branches, transitions and the like. */
import { number } from '../../words/text.js';
import { developedLayer, lengthsOfArea } from '../formulas/wrap.js';
import { deliveredAs } from '../stock.js';
import { type Along, around } from './part.js';

/** Equal pieces of a layer as they are cut, and what to call them. */
export interface Cut {
  readonly words: string;
  readonly pieces: number;
  readonly length: number;
  readonly width: number;
}

/** How it is cut nobody knows beforehand; so much goes into it, as wide as it is delivered. None of what is straight. */
export function developedCuts(along: Along, layer: number, of: 'blanket' | 'board'): Cut[] {
  const { body, choices } = along;
  if (body.kind !== 'fitting') return [];
  const area = developedLayer(body.surface, around(along, 0), around(along, layer), choices.fittingAllowance);
  const words = `developed surface with ${number(choices.fittingAllowance * 100)} % more`;
  const [widest] = [...deliveredAs(of, along.system, along.choices.stocks)].sort(
    (a, b) => b.width - a.width || b.length - a.length,
  );
  if (widest)
    return [{ words: `${words}, as wide as it is delivered`, width: widest.width, ...lengthsOfArea(area, widest) }];
  const length = around(along, layer);
  return [{ words: `${words}; nothing says how it is delivered`, pieces: 1, length, width: area / length }];
}
