/** What was made last for a part, kept while all that it was made from is the very same. Parts are never changed in place. */
export function memory<Value>(): (owner: object, inputs: readonly unknown[], make: () => Value) => Value {
  const last = new WeakMap<object, { readonly inputs: readonly unknown[]; readonly value: Value }>();
  return (owner, inputs, make) => {
    const before = last.get(owner);
    if (before?.inputs.length === inputs.length && before.inputs.every((each, i) => Object.is(each, inputs[i]))) return before.value;
    const value = make();
    last.set(owner, { inputs, value });
    return value;
  };
}
