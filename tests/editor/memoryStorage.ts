import type { Channel, Word } from '../../editor/files/keeper.ts';
import type { Storage } from '../../editor/files/storage.ts';
import { sha256 } from '../../engine/index.ts';

/** What several tabs of one browser share, in plain memory. */
export interface Shared {
  readonly kept: Map<string, unknown>;
  /** By name, who has it and who waits. */
  readonly locks: Map<string, { readonly tab: object; readonly grant: () => void }[]>;
  readonly ears: Map<object, (word: Word) => void>;
  time: number;
}

export const newShared = (): Shared => ({ kept: new Map(), locks: new Map(), ears: new Map(), time: 1_000_000 });

/** One tab's view of it. `step` is waited for before each call takes effect, and again before its answer: there it may be held up, or fail. */
export function memoryStorage(shared: Shared, tab: object, step: (call: string) => Promise<void> = async () => undefined): Storage {
  const { kept, locks } = shared;
  const does = async <T>(call: string, act: () => T): Promise<T> => {
    await step(call);
    const answer = act();
    await step(`answer of ${call}`);
    return answer;
  };
  const leave = (name: string, waiter: { readonly tab: object; readonly grant: () => void }): void => {
    const queue = locks.get(name) ?? [];
    const first = queue[0] === waiter;
    const left = queue.filter((each) => each !== waiter);
    locks.set(name, left);
    if (first) left[0]?.grant();
  };
  return {
    read: (key) => does('read', () => structuredClone(kept.get(key))),
    write: (key, value) => does('write', () => void kept.set(key, structuredClone(value))),
    list: (prefix) => does('list', () => [...kept.keys()].filter((key) => key.startsWith(prefix)).sort()),
    delete: (key) => does('delete', () => void kept.delete(key)),
    sum: async (text) => sha256(text),
    now: () => shared.time,
    // Who asks first is first, however late the answer comes.
    lock: (name, signal) =>
      new Promise((resolve, reject) => {
        const answer = () => step('lock').then(() => resolve(() => leave(name, waiter)), refuse);
        const waiter = { tab, grant: () => void answer() };
        const refuse = (fault: unknown): void => {
          leave(name, waiter);
          reject(fault);
        };
        const queue = [...(locks.get(name) ?? []), waiter];
        locks.set(name, queue);
        if (queue[0] === waiter) return waiter.grant();
        signal?.addEventListener('abort', () => locks.get(name)?.[0] !== waiter && refuse(new Error('nobody waits any longer')));
      }),
  };
}

export function memoryChannel({ ears }: Shared, tab: object): Channel {
  return {
    post: (word) => {
      for (const [other, hear] of ears) if (other !== tab) queueMicrotask(() => ears.get(other) === hear && hear(word));
    },
    hear: (listen) => void ears.set(tab, listen),
  };
}

/** The browser ends this tab: its locks are free at once, and nothing reaches it. */
export function endTab(shared: Shared, tab: object): void {
  shared.ears.delete(tab);
  for (const [name, queue] of shared.locks) {
    const left = queue.filter((each) => each.tab !== tab);
    shared.locks.set(name, left);
    if (left[0] && left[0] !== queue[0]) left[0].grant();
  }
}
