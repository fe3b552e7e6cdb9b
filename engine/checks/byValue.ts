/** So many answers are kept of each function, and the oldest gives way: more than a large site has different leads. */
const MOST = 1000;

/**
 * A function that remembers its answers by the values it was asked with, each under its name, from review to review: what is alike is
 * worked out once, and what is asked again after a step back is there already. For long arithmetic on a few numbers and words.
 */
export function byValue<I extends object, More extends readonly (number | string | boolean)[], A>(
  solve: (input: I, ...more: More) => A,
): (input: I, ...more: More) => A {
  const known = new Map<string, A>();
  return (input, ...more) => {
    let key = more.join('|');
    for (const name in input) key += `|${name},${input[name]}`;
    const held = known.get(key);
    if (held !== undefined) return held;
    const fresh = solve(input, ...more);
    if (known.size === MOST) known.delete(known.keys().next().value as string);
    known.set(key, fresh);
    return fresh;
  };
}
