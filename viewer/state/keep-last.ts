/** Keeps the last answer: several regions ask the same of one state, and each change is answered once. */
export function keepLast<A extends readonly unknown[], R>(compute: (...asked: A) => R): (...asked: A) => R {
  let last: { readonly asked: A; readonly answer: R } | undefined;
  return (...asked) => {
    if (!last || !asked.every((one, i) => Object.is(one, last?.asked[i]))) last = { asked, answer: compute(...asked) };
    return last.answer;
  };
}
