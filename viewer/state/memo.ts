/** What was worked out last is kept as long as it is asked for with the same things. */
export function latest<A extends readonly unknown[], R>(work: (...args: A) => R): (...args: A) => R {
  let last: { readonly args: A; readonly result: R } | undefined;
  return (...args) => {
    if (!last || last.args.length !== args.length || !args.every((arg, i) => Object.is(arg, last!.args[i])))
      last = { args, result: work(...args) };
    return last.result;
  };
}
