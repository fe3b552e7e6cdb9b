import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { newestState } from '../../editor/files/states.ts';
import type { Storage } from '../../editor/files/storage.ts';
import { memoryStorage, newShared, type Shared } from './memoryStorage.ts';
import { newestText, Tab, textOf, titled } from './tab.ts';

/**
 * Each call of the store fails in turn, once and from then on, until the operation gets by without reaching it. Afterwards the kept
 * state is the old one or the new one, whole, and whoever sat before it was told the truth.
 */

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

class Full extends Error {
  override readonly name = 'QuotaExceededError';
}

/** Counts calls from now on, and fails the one with this number, or all from it on. */
class Fault {
  calls = 0;
  armed = false;
  readonly #number: number;
  readonly #forGood: boolean;
  constructor(number: number, forGood: boolean) {
    this.#number = number;
    this.#forGood = forGood;
  }
  readonly step = async (): Promise<void> => {
    if (!this.armed) return;
    this.calls++;
    if (this.calls === this.#number || (this.#forGood && this.calls > this.#number)) throw new Full('no room');
  };
  get met(): boolean {
    return this.calls >= this.#number;
  }
}

interface Scene {
  readonly shared: Shared;
  readonly storage: Storage;
  readonly tab: Tab;
  readonly fault: Fault;
}

const pass = async ({ shared }: Pick<Scene, 'shared'>, ms: number): Promise<void> => {
  shared.time += ms;
  await vi.advanceTimersByTimeAsync(ms);
};

/** A document with so many states that the next write thins them. */
async function scene(fault: Fault, states = 31): Promise<Scene> {
  const shared = newShared();
  const storage = memoryStorage(shared, {}, fault.step);
  const tab = new Tab(shared, storage);
  tab.begin(titled('begun'));
  for (let i = 0; i < states; i++) {
    tab.edit(`old ${i}`);
    await pass({ shared }, 1000);
  }
  return { shared, storage, tab, fault };
}

const shownKept = ({ shared, tab }: Scene): boolean => newestText(shared, tab.keeper.present() ?? '') === textOf(tab.lineUp);

interface Operation {
  readonly run: (scene: Scene) => Promise<void>;
  /** What holds whether or not the call failed. */
  readonly holds: (scene: Scene, before: string | undefined, told: boolean) => void;
}

const OPERATIONS: Readonly<Record<string, Operation>> = {
  'an edit': {
    run: async ({ tab, ...rest }) => {
      tab.edit('new');
      await pass(rest, 400);
    },
    holds: (here, before) => {
      const now = newestText(here.shared, here.tab.keeper.present() ?? '');
      expect([before, textOf(here.tab.lineUp)]).toContain(now);
      // Thinning may fail without harm; a write may not fail in silence. One that was told to have failed may yet have been made.
      if (here.tab.sign !== 'kept') expect(here.tab.sign).toBe('failed');
      else expect(shownKept(here)).toBe(true);
      expect(here.tab.lineUp?.project.title).toBe('new');
    },
  },
  'another document over one that is not kept yet': {
    run: async ({ tab, ...rest }) => {
      tab.edit('new');
      const document = tab.keeper.present() ?? '';
      tab.begin(titled('other'));
      await pass(rest, 400);
      const kept = newestText(rest.shared, document) === textOf(titled('new'));
      if (!kept || !shownKept({ tab, ...rest })) expect(tab.sign).toBe('failed');
    },
    holds: ({ tab }) => expect(tab.lineUp?.project.title).toBe('other'),
  },
  'taking up another': {
    run: async ({ tab, ...rest }) => {
      const document = tab.keeper.present() ?? '';
      tab.begin(titled('other'));
      tab.edit('other, new');
      await pass(rest, 1000);
      tab.said.length = 0;
      rest.fault.armed = true;
      const taken = tab.keeper.takeUp(document);
      await pass(rest, 2000);
      await taken;
    },
    holds: ({ tab }, _before, failed) => {
      // Either it is open, to edit or to follow, or the other still is and that is told.
      const title = tab.lineUp?.project.title ?? '';
      expect(title).toMatch(/^(old 30|other, new)$/);
      if (title === 'other, new') expect(tab.said.join()).toContain('could not be read');
      if (!failed) expect([title, tab.following]).toEqual(['old 30', false]);
    },
  },
  'handing over to another tab': {
    run: async ({ tab, ...rest }) => {
      const second = new Tab(rest.shared);
      rest.fault.armed = false;
      const started = second.keeper.start();
      await pass(rest, 1000);
      await started;
      expect(second.following).toBe(true);
      tab.edit('new');
      rest.fault.armed = true;
      second.keeper.takeOver();
      await pass(rest, 200);
      // Never two who edit; and who edits has everything.
      expect([tab.following, second.following]).toContain(true);
      if (!second.following) expect(second.lineUp?.project.title).toBe('new');
      else expect([tab.lineUp?.project.title, tab.following]).toEqual(['new', false]);
      if (second.following) expect(second.said.join()).toContain('cannot keep its work just now');
    },
    holds: () => undefined,
  },
};

describe.each(Object.entries(OPERATIONS))('the store fails in %s', (_name, { run, holds }) => {
  it.each([
    ['once', false],
    ['from then on', true],
  ])('%s, at each of its calls', async (_how, forGood) => {
    let number = 1;
    for (; number < 100; number++) {
      const fault = new Fault(number, forGood);
      const here = await scene(fault);
      const before = newestText(here.shared, here.tab.keeper.present() ?? '');
      fault.armed = true;
      await run(here);
      holds(here, before, fault.met);
      // Nothing is mixed: every state that is there is whole.
      fault.armed = false;
      for (const key of here.shared.kept.keys()) {
        const { skipped } = await newestState(here.storage, key.slice(0, key.lastIndexOf('/')));
        expect(skipped).toEqual([]);
      }
      // And once the store is well again, so is everything.
      await pass(here, 120_000);
      expect(here.tab.following || shownKept(here)).toBe(true);
      if (!here.tab.following) expect(here.tab.sign).toBe('kept');
      vi.clearAllTimers();
      if (!fault.met) break;
    }
    expect(number).toBeGreaterThan(1);
    expect(number).toBeLessThan(100);
  });
});

it('a start that cannot read says so', async () => {
  const shared = (await scene(new Fault(0, false))).shared;
  for (let number = 1; number < 20; number++) {
    const fault = new Fault(number, true);
    fault.armed = true;
    const tab = new Tab(shared, memoryStorage(shared, {}, fault.step));
    const started = tab.keeper.start().catch(() => tab.said.push('not saved'));
    await pass({ shared }, 2000);
    await started;
    if (tab.lineUp === null) expect(tab.said.length).toBe(1);
    if (!fault.met) return expect(tab.lineUp).not.toBeNull();
  }
});
