/** How whoever waits for many reviews is told how far they are, and stops them. */
export interface Watching {
  /** Told after each document that was judged. What it returns is awaited: a caller may breathe there. */
  readonly progress?: (judged: number) => void | Promise<void>;
  readonly signal?: { readonly aborted: boolean };
}

/** The same judge, watched. Stopped, it rejects with an AbortError. */
export function watched<T, R>(judge: (what: T) => R, { progress, signal }: Watching): (what: T) => Promise<R> {
  let judged = 0;
  return async (what) => {
    if (signal?.aborted) throw Object.assign(new Error('Stopped.'), { name: 'AbortError' });
    const answer = judge(what);
    await progress?.(++judged);
    return answer;
  };
}
