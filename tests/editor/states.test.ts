import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keyOf, seal, timeOf } from '../../editor/files/sealed.ts';
import { MOST_STATES, newestState, superfluous } from '../../editor/files/states.ts';
import { save } from '../../engine/index.ts';
import { memoryStorage, newShared } from './memoryStorage.ts';
import { newestText, Tab, textOf, titled } from './tab.ts';

/** What is kept of a document, how it is thinned, and what is made of a state that is damaged. */

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const pass = async (shared: { time: number }, ms: number): Promise<void> => {
  shared.time += ms;
  await vi.advanceTimersByTimeAsync(ms);
};

describe('states of a document', () => {
  it('are thinned to as many as are kept: the newest two, the first, and the older the farther apart', () => {
    const first = 1_000_000;
    let keys: string[] = [];
    let now = first;
    for (let i = 0; i < 5000; i++) {
      now += 1000;
      keys.push(keyOf('d', now));
      const gone = superfluous(keys, now);
      if (gone) keys = keys.filter((key) => key !== gone);
    }
    expect(keys.length).toBe(MOST_STATES);
    expect(MOST_STATES).toBeGreaterThan(20);
    const ages = keys.map((key) => (now - timeOf(key)) / 1000).reverse();
    expect(ages.slice(0, 2)).toEqual([0, 1]);
    expect(ages.at(-1)).toBe(4999);
    // Someone who looks for how it was a minute, ten minutes or an hour ago finds a state of about then.
    for (const wanted of [60, 600, 3600]) expect(Math.min(...ages.map((age) => Math.abs(age - wanted)))).toBeLessThan(0.3 * wanted + 10);
  });

  it('are at least 20 after 21 edits that were kept, the newest as it is shown', async () => {
    const shared = newShared();
    const tab = new Tab(shared);
    tab.begin(titled('0'));
    for (let i = 1; i <= 60; i++) {
      tab.edit(`${i}`);
      await pass(shared, 1000);
      if (i === 21) expect(shared.kept.size).toBeGreaterThanOrEqual(21);
    }
    expect(tab.sign).toBe('kept');
    expect(shared.kept.size).toBe(MOST_STATES);
    expect(newestText(shared, tab.keeper.present() ?? '')).toBe(textOf(tab.lineUp));
  });

  it('the newest that is whole is opened, and the damaged one is told of, and never thinned away', async () => {
    const shared = newShared();
    const before = new Tab(shared);
    before.begin(titled('0'));
    before.edit('1');
    await pass(shared, 1000);
    before.edit('2');
    await pass(shared, 1000);
    const [, last = ''] = [...shared.kept.keys()].sort();
    for (const [what, broken] of [
      ['a letter changed', { ...seal(save(titled('2'))), text: save(titled('3')) }],
      ['cut off', { ...seal(save(titled('2'))), text: save(titled('2')).slice(0, 100) }],
      ['nothing left', 7],
    ] as const) {
      const copy = { ...newShared(), kept: new Map([...shared.kept, [last, broken]]), time: shared.time };
      const tab = new Tab(copy);
      const started = tab.keeper.start();
      await vi.advanceTimersByTimeAsync(0);
      await started;
      expect([what, tab.lineUp?.project.title]).toEqual([what, '1']);
      expect(tab.said[0]).toContain('cannot be read');
      for (let i = 0; i < 60; i++) {
        tab.edit(`after ${i}`);
        await pass(copy, 1000);
      }
      expect(copy.kept.get(last)).toEqual(broken);
    }
  });

  it('without one that is whole are refused as they were found, and stay', async () => {
    const shared = newShared();
    shared.kept.set(keyOf('d', 5), seal('{"format":"copperline","ver'));
    const tab = new Tab(shared);
    await tab.keeper.start();
    expect(tab.lineUp).toBeNull();
    expect(tab.said.join()).toMatch(/^refused: .*cut off/);
    expect((await newestState(memoryStorage(shared, {}), 'd')).found?.text).toBe('{"format":"copperline","ver');
  });

  it('stay in order when the clock is set back', async () => {
    const shared = newShared();
    const tab = new Tab(shared);
    tab.begin(titled('0'));
    tab.edit('early');
    await pass(shared, 1000);
    shared.time = 1000;
    tab.edit('late');
    await pass(shared, 1000);
    const again = new Tab(shared, memoryStorage(shared, {}));
    const started = again.keeper.start();
    await vi.advanceTimersByTimeAsync(1000);
    await started;
    expect(again.lineUp?.project.title).toBe('late');
  });

  it('of documents that were only looked at go, and of too many those that nobody worked on for longest, but never one that is open', async () => {
    const shared = newShared();
    const [first, second] = [new Tab(shared), new Tab(shared)];
    first.begin(titled('first'));
    first.edit('1');
    await pass(shared, 1000);
    for (let i = 0; i < 12; i++) {
      second.begin(titled('looked at'));
      await pass(shared, 1000);
      second.begin(titled('begun'));
      await pass(shared, 400);
      second.edit(`${100 + i}`);
      await pass(shared, 1000);
    }
    const titles = (await second.keeper.others()).map(({ lineUp }) => lineUp?.project.title);
    // The one that the first tab has open is the oldest of all.
    expect(titles).toEqual(['110', '109', '108', '107', '106', '105', '104', '103', '1']);
    expect(newestText(shared, second.keeper.present() ?? '')).toBe(textOf(titled('111')));
    expect([...shared.kept.values()].some((value) => JSON.stringify(value).includes('looked at'))).toBe(false);
  });
});
