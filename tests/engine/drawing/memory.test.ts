import { expect, it } from 'vitest';
import { beginDrawing, memory } from '../../../engine/drawing/memory.ts';

/** What a drawing remembers of its parts, and for how long. */

const part = {};

it('makes nothing twice of the same inputs, and makes it anew of others', () => {
  const made = memory<number>();
  let count = 0;
  const ask = (input: number) => made(part, [input], () => ++count);
  expect([ask(7), ask(7), ask(8), ask(8), ask(7)]).toEqual([1, 1, 2, 2, 3]);
});

it('keeps what each drawing asks for, and lets go of what two have done without', () => {
  const made = memory<number>();
  let count = 0;
  const ask = () => made(part, [], () => ++count);
  for (let i = 0; i < 5; i++) {
    beginDrawing();
    expect(ask()).toBe(1);
  }
  // Another document drawn in between, once: the first is still known.
  beginDrawing();
  beginDrawing();
  expect(ask()).toBe(1);
  beginDrawing();
  beginDrawing();
  beginDrawing();
  expect(ask()).toBe(2);
});
