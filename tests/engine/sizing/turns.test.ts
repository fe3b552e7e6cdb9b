import { describe, expect, it } from 'vitest';
import type { Finding, Verdict } from '../../../engine/index.ts';
import { alongSpan, amongAnswers, distanceTo } from '../../../engine/sizing/turns.ts';

/** Where verdicts turn that are made up: a finding by its name, and what it says of each value. */

type Says = Readonly<Record<string, (value: number) => Verdict | undefined>>;
function asking<T extends number | string>(says: Readonly<Record<string, (value: T) => Verdict | undefined>>) {
  const asked: T[] = [];
  const at = async (value: number | string): Promise<ReadonlyMap<string, Finding>> => {
    asked.push(value as T);
    const found = Object.entries(says).flatMap(([id, of]) => {
      const verdict = of(value as T);
      return verdict
        ? [[id, { id, check: id, title: id, subject: { kind: 'cable', id, tag: id }, verdict } as unknown as Finding] as const]
        : [];
    });
    return new Map(found);
  };
  return { asked, at };
}
const SPAN = { least: 0, most: 20 };
const along = async (says: Says, now: number, span = SPAN) => {
  const { asked, at } = asking<number>(says);
  return { asked, turns: await alongSpan(now, span, at) };
};
/** To 0.2 % of the span. */
const FINE = 0.04;

describe('along a span', () => {
  it('a turn is told just beyond itself, to a five-hundredth of the span, on either side', async () => {
    const { turns } = await along({ a: (value) => (value > 15 ? 'fail' : 'pass'), b: (value) => (value < 3 ? 'caution' : 'note') }, 10);
    const told = new Map(turns.map((turn) => [turn.finding.id, turn]));
    expect([told.get('a')?.from, told.get('a')?.to, told.get('b')?.from, told.get('b')?.to]).toEqual(['pass', 'fail', 'note', 'caution']);
    const [a, b] = [Number(told.get('a')?.at), Number(told.get('b')?.at)];
    expect([a > 15, a <= 15 + FINE, b < 3, b >= 3 - FINE]).toEqual([true, true, true, true]);
    expect(told.get('a')?.finding).toEqual({ id: 'a', check: 'a', title: 'a', subject: { kind: 'cable', id: 'a', tag: 'a' } });
  });

  it('of two turns the nearer is told, whichever side it is on', async () => {
    const { turns } = await along(
      { up: (value) => (value < 2 || value > 12 ? 'fail' : 'pass'), down: (value) => (value < 8 || value > 18 ? 'fail' : 'pass') },
      10,
    );
    const told = new Map(turns.map(({ finding, at }) => [finding.id, Number(at)]));
    expect(told.size).toBe(2);
    expect([told.get('up'), told.get('down')]).toEqual([expect.closeTo(12, 1), expect.closeTo(8, 1)]);
    // Both between the same two looks of their sides: 9.1 is nearer than 11.
    const close = await along({ x: (value) => (value < 9.1 || value > 11 ? 'fail' : 'pass') }, 10);
    expect(Number(close.turns[0]?.at)).toBeCloseTo(9.1, 1);
    const other = await along({ x: (value) => (value < 9 || value > 10.9 ? 'fail' : 'pass') }, 10);
    expect(Number(other.turns[0]?.at)).toBeCloseTo(10.9, 1);
    // Of one side the first, though a later look is otherwise again.
    const first = await along({ x: (value) => (value > 12 && value < 14 ? 'caution' : value > 17 ? 'fail' : 'pass') }, 10);
    expect([first.turns.length, first.turns[0]?.to]).toEqual([1, 'caution']);
    expect(Number(first.turns[0]?.at)).toBeCloseTo(12, 1);
  });

  it('the verdict is that of the place that is told, not of the look that found it', async () => {
    // Looked at 12.5, where it fails already.
    const { turns } = await along({ a: (value) => (value < 12.3 ? 'pass' : value < 12.45 ? 'caution' : 'fail') }, 10);
    expect(turns.map(({ to }) => to)).toEqual(['caution']);
    // One that is not made in between is no other verdict.
    const gone = await along({ a: (value) => (value < 12.3 ? 'pass' : value < 12.45 ? undefined : 'fail') }, 10);
    expect(gone.turns.map(({ to }) => to)).toEqual(['fail']);
  });

  it('what can be judged no more, or is not made any more, is not decided; nor what was not', async () => {
    const turned = (from: Verdict | undefined, to: Verdict | undefined) =>
      along({ a: (value) => (value > 15 ? to : from) }, 10).then(({ turns }) => turns.length);
    expect([
      await turned('pass', 'open'),
      await turned('pass', undefined),
      await turned('open', 'fail'),
      await turned(undefined, 'fail'),
    ]).toEqual([0, 0, 0, 0]);
    expect([await turned('pass', 'not-applicable'), await turned('out-of-scope', 'fail'), await turned('fail', 'fail')]).toEqual([0, 0, 0]);
    for (const [from, to] of [
      ['fail', 'caution'],
      ['caution', 'note'],
      ['note', 'pass'],
      ['pass', 'fail'],
    ] as const)
      expect(await turned(from, to)).toBe(1);
  });

  it('is looked at eight places to each side, and to the one side there is', async () => {
    const both = await along({ a: () => 'pass' }, 10);
    expect(both.asked).toEqual([
      10,
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((i) => 10 - 1.25 * i),
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((i) => 10 + 1.25 * i),
    ]);
    const end = await along({ a: () => 'pass' }, 20);
    expect(end.asked).toEqual([20, ...[1, 2, 3, 4, 5, 6, 7, 8].map((i) => 20 - 2.5 * i)]);
    for (const span of [
      { least: 5, most: 5 },
      { least: 6, most: 5 },
    ])
      expect((await along({ a: (value) => (value > 5 ? 'fail' : 'pass') }, 5, span)).asked).toEqual([]);
    expect(await alongSpan('text', SPAN, asking<number>({ a: (value) => (value > 5 ? 'fail' : 'pass') }).at)).toEqual([]);
  });
});

describe('among answers', () => {
  it('each other one is asked, and the first that turns a verdict is told', async () => {
    const { asked, at } = asking<string>({
      a: (answer) => (answer === 'wet' ? 'fail' : answer === 'damp' ? 'caution' : 'pass'),
      b: (answer) => (answer === 'wet' ? 'fail' : 'pass'),
      c: () => 'pass',
    });
    const turns = await amongAnswers('dry', ['dry', 'damp', 'wet'], at);
    expect(turns.map(({ finding, at: answer, from, to }) => [finding.id, answer, from, to])).toEqual([
      ['a', 'damp', 'pass', 'caution'],
      ['b', 'wet', 'pass', 'fail'],
    ]);
    expect(asked).toEqual(['dry', 'damp', 'wet']);
  });
});

describe('how far a turn is', () => {
  it('is a share of the span, and nothing for an answer', () => {
    const input = (now: number | string, span: object) => ({ now, span }) as unknown as Parameters<typeof distanceTo>[0];
    const turn = (at: number | string) => ({ at }) as Parameters<typeof distanceTo>[1];
    expect([
      distanceTo(input(10, SPAN), turn(15)),
      distanceTo(input(10, SPAN), turn(5)),
      distanceTo(input(20, { least: 10, most: 30 }), turn(15)),
    ]).toEqual([0.25, 0.25, 0.25]);
    expect([
      distanceTo(input('dry', { answers: [] }), turn('wet')),
      distanceTo(input(1, SPAN), undefined),
      distanceTo(input('x', SPAN), turn(3)),
    ]).toEqual([0, 0, 0]);
  });
});
