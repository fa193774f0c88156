/** What can happen to a file: blind mutations, of which nobody knows what they do, and aimed ones, of which we do. */
import { AIMED, type Taken } from './aimed.js';
import { BLIND } from './blind.js';
import type { Random } from './random.js';
import { StepText } from './step-text.js';

export interface Mutant {
  readonly what: string;
  readonly bytes: Uint8Array;
  readonly taken?: Taken;
}

const encoder = new TextEncoder();

/** The same for the same text and state of `random`. */
export function mutantOf(text: string, random: Random): Mutant {
  if (random.next() < 0.3) {
    const step = new StepText(text);
    const aim = random.pick(AIMED);
    const lines = text.split('\n');
    const targets = aim.targets(step).filter(({ line }) => aim.change(lines[line]!) !== lines[line]);
    if (targets.length > 0) {
      const { line, from } = random.pick(targets);
      lines[line] = aim.change(lines[line]!);
      return { what: aim.what, bytes: encoder.encode(lines.join('\n')), taken: { what: aim.taken, from } };
    }
  }
  const [what, change] = random.pick(BLIND);
  return { what, bytes: change(text, random) };
}
