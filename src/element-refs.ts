/** Elements by file and GlobalId: the name, the order and the bare reference that every layer goes by. */
import { compareTexts } from './collect.js';
import type { ElementRef } from './model.js';

export const refOf = ({ model, globalId }: ElementRef): ElementRef => ({ model, globalId });

export const nameOf = ({ model, globalId }: ElementRef): string => `${model} ${globalId}`;

/** Each once, in the order of GlobalIds, then of files: files are renamed from one revision to the next. */
export const inOrderOfRefs = <T extends ElementRef>(items: readonly T[]): T[] =>
  [...new Map(items.map((one) => [nameOf(one), one])).values()].sort(
    (a, b) => compareTexts(a.globalId, b.globalId) || compareTexts(a.model, b.model),
  );

export const refsOf = (items: readonly ElementRef[]): ElementRef[] => inOrderOfRefs(items.map(refOf));
