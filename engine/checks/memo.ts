/** Results remembered by the identity of everything they were made from: an edit that touches none of it costs nothing. */
export class Memo {
  #held = new Map<string, { readonly deps: readonly unknown[]; readonly value: unknown }>();
  #next = new Map<string, { readonly deps: readonly unknown[]; readonly value: unknown }>();
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
    if (held && held.deps.length === deps.length && held.deps.every((dep, i) => Object.is(dep, deps[i]))) {
      this.#next.set(key, held);
      return held.value as T;
    }
    const value = compute();
    this.recomputed += results(value);
    this.#next.set(key, { deps, value });
    return value;
  }

  /** The remembered record when the new one says the same, so that what hangs on it is not computed again. */
  keep<T extends object>(key: string, fresh: T): T {
    const held = this.#held.get(key)?.value as T | undefined;
    const same = held === fresh || (held !== undefined && JSON.stringify(held) === JSON.stringify(fresh));
    const value = same ? held : fresh;
    this.#next.set(key, { deps: [], value });
    return value;
  }
}
