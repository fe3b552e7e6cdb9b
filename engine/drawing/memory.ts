interface Kept<Value> {
  readonly inputs: readonly unknown[];
  readonly value: Value;
}

type Held<Value> = Map<object, Kept<Value>>;

/** Each lets go of what two drawings did without: a line-up is drawn beside the one that is compared with it, or goes out, in turns. */
const drawn: (() => void)[] = [];

/** Asked for at the beginning of a drawing. What was made for parts of long ago would live on with them: a thousand steps back are kept. */
export function beginDrawing(): void {
  for (const letGo of drawn) letGo();
}

/** What was made last for a part, kept while all that it was made from is the very same. Parts are never changed in place. */
export function memory<Value>(): (owner: object, inputs: readonly unknown[], make: () => Value) => Value {
  let now: Held<Value> = new Map();
  let last: Held<Value> = new Map();
  let before: Held<Value> = new Map();
  drawn.push(() => {
    [now, last, before] = [new Map(), now, last];
  });
  return (owner, inputs, make) => {
    const held = now.get(owner) ?? last.get(owner) ?? before.get(owner);
    const kept =
      held?.inputs.length === inputs.length && held.inputs.every((each, i) => Object.is(each, inputs[i]))
        ? held
        : { inputs, value: make() };
    now.set(owner, kept);
    return kept.value;
  };
}
