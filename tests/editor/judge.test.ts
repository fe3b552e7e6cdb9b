import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createJudge, type Helper } from '../../editor/store/judge.ts';
import type { ReviewParcel } from '../../editor/store/parcels.ts';
import { type LineUp, type Review, review } from '../../engine/index.ts';
import { manyRuns, withLongerLead } from '../engine/manyRuns.ts';

/** Who judges what, and which answers are let through. The worker is the real one, its thread is played: each message waits for a hand. */

type Listen = (event: { readonly data: unknown }) => void;

class PlayedWorker implements Helper {
  onmessage: Helper['onmessage'] = null;
  onerror: Helper['onerror'] = null;
  onmessageerror: Helper['onmessageerror'] = null;
  readonly asked: unknown[] = [];
  readonly answers: ReviewParcel[] = [];
  ended = false;
  #listen: Listen = () => undefined;

  async load(): Promise<this> {
    vi.resetModules();
    vi.stubGlobal('addEventListener', (_type: string, listen: Listen) => {
      this.#listen = listen;
    });
    vi.stubGlobal('postMessage', (answer: ReviewParcel) => this.answers.push(structuredClone(answer)));
    await import('../../editor/store/reviewWorker.ts');
    return this;
  }
  postMessage(message: unknown): void {
    this.asked.push(structuredClone(message));
  }
  terminate(): void {
    this.ended = true;
  }
  /** Works on the oldest message that was not answered yet. */
  work(): void {
    this.#listen({ data: this.asked[this.answers.length] });
    this.onmessage?.({ data: this.answers.at(-1) } as MessageEvent<ReviewParcel>);
  }
}

const SMALL = manyRuns(2);
const LARGE = manyRuns(20);
const said = ({ recomputed: _, ...rest }: Review): unknown => rest;
const same = (answer: Review | null | undefined, lineUp: LineUp): void => expect(answer && said(answer)).toEqual(said(review(lineUp)));
const longer = (length_m: number): LineUp => withLongerLead(LARGE, length_m);

let worker: PlayedWorker;
let taken: Review[];
let judge: (lineUp: LineUp) => Review | null;
beforeEach(async () => {
  worker = await new PlayedWorker().load();
  taken = [];
  judge = createJudge(
    () => worker,
    (answer) => taken.push(answer),
  );
});
afterEach(() => void vi.unstubAllGlobals());

describe('where a document is judged', () => {
  it('a small one here and at once', () => {
    same(judge(SMALL), SMALL);
    expect(worker.asked).toEqual([]);
  });

  it('a large one by the worker, with the same answer', () => {
    expect(judge(LARGE)).toBeNull();
    worker.work();
    expect(taken.length).toBe(1);
    same(taken[0], LARGE);
  });

  it('an edit sends and brings back what it touched, and the worker remembers the rest', () => {
    judge(LARGE);
    worker.work();
    judge(longer(60));
    worker.work();
    same(taken[1], longer(60));
    expect(taken[1]?.recomputed).toBeLessThan((taken[0]?.recomputed ?? 0) / 10);
    expect(JSON.stringify(worker.asked[1]).length).toBeLessThan(JSON.stringify(worker.asked[0]).length / 10);
    const kept = taken[1]?.findings.filter((each) => taken[0]?.findings.includes(each)) ?? [];
    expect(kept.length).toBeGreaterThan(0.9 * (taken[0]?.findings.length ?? 0));
  });

  it('a move asks nobody', () => {
    judge(LARGE);
    worker.work();
    expect(judge({ ...LARGE, positions: { e1: { x_mm: 10, y_mm: 20 } } })).toBe(taken[0]);
    expect(worker.asked.length).toBe(1);
  });
});

describe('while the worker works', () => {
  it('only the newest of the edits made meanwhile is sent, and the answer for an older document is dropped', () => {
    for (const lineUp of [LARGE, longer(60), longer(61), longer(62)]) expect(judge(lineUp)).toBeNull();
    expect(worker.asked.length).toBe(1);
    worker.work();
    expect([taken.length, worker.asked.length]).toEqual([0, 2]);
    worker.work();
    expect([taken.length, worker.asked.length]).toEqual([1, 2]);
    same(taken[0], longer(62));
  });

  it('a move does not make the answer late', () => {
    judge(LARGE);
    judge({ ...LARGE, positions: { e1: { x_mm: 10, y_mm: 20 } } });
    worker.work();
    expect([taken.length, worker.asked.length]).toEqual([1, 1]);
  });

  it('an edit that is taken back has its answer at once', () => {
    judge(LARGE);
    worker.work();
    judge(longer(60));
    expect(judge(LARGE)).toBe(taken[0]);
    worker.work();
    expect(taken.length).toBe(1);
    judge(longer(61));
    worker.work();
    same(taken[1], longer(61));
  });

  it('a small document opened meanwhile is not overtaken by the answer for the large one', () => {
    judge(LARGE);
    same(judge(SMALL), SMALL);
    worker.work();
    expect(taken).toEqual([]);
  });
});

describe('without a worker', () => {
  it('that cannot start, everything is judged here', () => {
    const alone = createJudge(
      () => {
        throw new Error('no workers here');
      },
      (answer) => taken.push(answer),
    );
    same(alone(LARGE), LARGE);
  });

  it('that fails at work, the newest document is judged here, and so is every later one', () => {
    judge(LARGE);
    judge(longer(60));
    worker.onerror?.({} as ErrorEvent);
    expect([taken.length, worker.ended]).toEqual([1, true]);
    same(taken[0], longer(60));
    same(judge(longer(61)), longer(61));
  });
});
