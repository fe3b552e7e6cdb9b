import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { edit, openLineUp, putBack, select, takeFix, tryFix, undo, useEditor, whenJudged } from '../../editor/store/editorStore.ts';
import { type LineUp, oneLine, type Review, remove, review, waveformOf } from '../../engine/index.ts';
import { manyRuns, withLongerLead } from '../engine/manyRuns.ts';

/** What the store says while a review is being made elsewhere. The judge is played: it answers when it is told to. */

const played = vi.hoisted(() => ({ atOnce: true, take: (_: Review): void => undefined }));
vi.mock('../../editor/store/judge.ts', () => ({
  createJudge: (_start: unknown, take: (answer: Review) => void) => {
    played.take = take;
    return (lineUp: LineUp) => (played.atOnce ? review(lineUp) : null);
  },
}));

const SITE = manyRuns(2);
const LONGER = withLongerLead(SITE);
const state = () => useEditor.getState();
const signs = () => [state().stale, state().working];

beforeEach(() => {
  vi.useFakeTimers();
  played.atOnce = true;
  openLineUp(SITE);
  played.atOnce = false;
});
afterEach(() => void vi.useRealTimers());

describe('a stale review', () => {
  it('is kept and known to be stale; the sign comes after 150 ms, and both go with the answer', () => {
    const before = state().review;
    edit('Length', () => LONGER);
    expect(state().review).toBe(before);
    expect(signs()).toEqual([true, false]);
    vi.advanceTimersByTime(150);
    expect(signs()).toEqual([true, true]);
    const answer = review(LONGER);
    played.take(answer);
    expect(state().review).toBe(answer);
    expect(signs()).toEqual([false, false]);
  });

  it('gives no sign when the answer is quick', () => {
    edit('Length', () => LONGER);
    vi.advanceTimersByTime(100);
    played.take(review(LONGER));
    vi.advanceTimersByTime(1000);
    expect(signs()).toEqual([false, false]);
  });

  it('of the line-up that was open before says nothing of one just opened', () => {
    openLineUp(manyRuns(3));
    expect([state().review?.findings, state().review?.verdict]).toEqual([[], 'open']);
    expect(signs()).toEqual([true, true]);
  });

  it('ends when the edit is taken back and judged at once', () => {
    edit('Length', () => LONGER);
    played.atOnce = true;
    undo();
    vi.advanceTimersByTime(1000);
    expect(signs()).toEqual([false, false]);
  });

  it('proposes no edit of a newer document', () => {
    edit('Length', () => LONGER);
    takeFix({ label: 'Bond', edits: [{ id: 'e1', path: 'note', value: 'bonded' }] });
    expect(state().lineUp).toBe(LONGER);
    expect(state().reason).toContain('still being judged');
  });

  it('is drawn over a document that lost or gained parts, without a fault', () => {
    const [full, less] = [review(SITE), remove(SITE, ['e1', ...SITE.cables.slice(0, 4).map((each) => each.id)])];
    expect(() => oneLine(less, full)).not.toThrow();
    expect(() => oneLine(SITE, review(less))).not.toThrow();
    for (const run of full.runs) expect(() => waveformOf(less, run)).not.toThrow();
  });
});

describe('the package', () => {
  it('waits for the review of the very document', async () => {
    edit('Length', () => LONGER);
    const waiting = whenJudged();
    const answer = review(LONGER);
    played.take(answer);
    expect(await waiting).toEqual({ lineUp: LONGER, review: answer });
  });

  it('is not written of another line-up that was opened meanwhile', async () => {
    edit('Length', () => LONGER);
    const waiting = whenJudged();
    openLineUp(manyRuns(1));
    await expect(waiting).rejects.toThrow('another line-up');
  });
});

describe('a change that is only tried', () => {
  const lead = SITE.cables.find(({ length_m }) => length_m !== undefined);
  const longer = { label: 'Longer', edits: [{ id: lead?.id ?? '', path: 'length_m', value: 77 }] };

  it('takes the answer about it, and the document keeps its own', () => {
    const before = state().review;
    tryFix(longer);
    expect(state().trying?.review).toBeNull();
    const answer = review(SITE);
    played.take(answer);
    expect(state().trying?.review).toBe(answer);
    expect([state().lineUp, state().review, state().past]).toEqual([SITE, before, []]);
    putBack();
    expect([state().trying, state().lineUp, state().review]).toEqual([null, SITE, before]);
  });

  it('lets nothing else be changed, and ends with another choice, with undo and with being made', () => {
    tryFix(longer);
    edit('Longer', () => LONGER);
    expect(state().lineUp).toBe(SITE);
    expect(state().reason).toContain('only being tried');
    select([]);
    expect(state().trying).toBeNull();
    tryFix(longer);
    undo();
    expect([state().trying, state().lineUp]).toEqual([null, SITE]);
    tryFix(longer);
    takeFix(longer);
    expect(state().trying).toBeNull();
    expect(state().past.map(({ label }) => label)).toEqual(['Longer']);
    expect(state().lineUp?.cables.find(({ id }) => id === lead?.id)?.length_m).toBe(77);
  });

  it('is not begun while the document itself is being judged', () => {
    edit('Length', () => LONGER);
    tryFix(longer);
    expect(state().trying).toBeNull();
    expect(state().reason).toContain('still being judged');
  });
});
