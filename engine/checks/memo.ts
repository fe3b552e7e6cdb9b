/**
 * Results remembered by the identity of everything they were made from: an edit that touches none of it costs nothing. Of a list it is what
 * stands in it that counts, not the list.
 */
interface Entry<T = unknown> {
  readonly deps: readonly unknown[];
  readonly value: T;
}

export class Memo {
  #held = new Map<string, Entry>();
  #next = new Map<string, Entry>();
  /** How many results were computed since the beginning of this review. */
  recomputed = 0;

  /** Starts a review: what the last one did not use is let go at its end. */
  begin(): void {
    this.recomputed = 0;
    this.#next = new Map();
  }

  end(): void {
    this.#held = this.#next;
  }

  /** The remembered value while every dependency is the same object, else a new one. `results` says how many results it holds. */
  get<T>(key: string, deps: readonly unknown[], compute: () => T, results: (value: T) => number = () => 0): T {
    const held = this.#held.get(key);
    if (held && isSame(held.deps, deps)) {
      this.#next.set(key, held);
      return held.value as T;
    }
    const value = compute();
    this.recomputed += results(value);
    this.#next.set(key, { deps, value });
    return value;
  }

  /** As `get`, for a result made of many that remember for themselves: their memory lives as long as this entry does. */
  inner<T>(key: string, deps: readonly unknown[], compute: (memo: Memo) => T): T {
    const held = this.#held.get(key) as Entry<{ readonly memo: Memo; readonly value: T }> | undefined;
    if (held && isSame(held.deps, deps)) {
      this.#next.set(key, held);
      return held.value.value;
    }
    const memo = held?.value.memo ?? new Memo();
    memo.begin();
    const value = compute(memo);
    memo.end();
    this.recomputed += memo.recomputed;
    this.#next.set(key, { deps, value: { memo, value } });
    return value;
  }

  /** The remembered record when the new one says the same, so that what hangs on it is not computed again. */
  keep<T extends object>(key: string, fresh: T): T {
    const held = this.#held.get(key)?.value;
    const value = saysTheSame(held, fresh) ? held : fresh;
    this.#next.set(key, { deps: [], value });
    return value;
  }

  /** A part of what is remembered under a key, when the new part says the same. */
  same<W, T extends object>(key: string, pick: (whole: W) => T | undefined, fresh: T): T {
    const whole = this.#held.get(key)?.value as W | undefined;
    const held = whole === undefined ? undefined : pick(whole);
    return saysTheSame(held, fresh) ? held : fresh;
  }
}

const isSame = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((dep, i) => Object.is(dep, b[i]) || isSameList(dep, b[i]));
const isSameList = (a: unknown, b: unknown): boolean =>
  Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((each, i) => Object.is(each, b[i]));

/** Whether they would be written down alike: what is not given is as good as not there. Most of what differs differs soon. */
function saysTheSame<T>(a: unknown, b: T): a is T {
  if (a === b || Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null || Array.isArray(a) !== Array.isArray(b)) return false;
  const [ours, theirs] = [a as Record<string, unknown>, b as Record<string, unknown>];
  for (const key in ours) if (!saysTheSame(ours[key], theirs[key])) return false;
  for (const key in theirs) if (theirs[key] !== undefined && ours[key] === undefined) return false;
  return true;
}
