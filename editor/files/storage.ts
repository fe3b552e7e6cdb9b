/** Where work is kept, and all that keeping asks of the world: the browser in the app, plain memory in tests, and between the two whatever is to let it fail. */
export interface Storage {
  /** What stands under this key; undefined where nothing does. */
  readonly read: (key: string) => Promise<unknown>;
  /**
   * Whole or not at all; once this resolves it stays, whatever happens to the browser. `atOnce` where the page may be gone before it
   * resolves: then it stays all the same.
   */
  readonly write: (key: string, value: unknown, atOnce?: boolean) => Promise<void>;
  /** The keys that begin so, in order. */
  readonly list: (prefix: string) => Promise<readonly string[]>;
  readonly delete: (key: string) => Promise<void>;
  /** SHA-256 of a text, as hexadecimal digits. */
  readonly sum: (text: string) => Promise<string>;
  /** In milliseconds. */
  readonly now: () => number;
  /** Waits until no other tab has this name, and gives the means to let go of it again. Throws when the signal says not to wait any longer. */
  readonly lock: (name: string, signal?: AbortSignal) => Promise<() => void>;
}
