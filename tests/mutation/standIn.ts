import { expect } from 'vitest';

/** What the tests take from vitest, without its runner: they are collected, and then asked one by one, many thousand times over. */

export interface Collected {
  readonly name: string;
  readonly run: () => unknown;
}

type Body = (...given: unknown[]) => unknown;

const nothing = (): void => undefined;

/** @param tests where they are put */
export function standIn(tests: Collected[]) {
  const path: string[] = [];
  const hooks: (() => unknown)[] = [];
  const it = (name: string, body: Body) => {
    tests.push({ name: [...path, name].join(' › '), run: () => body() });
  };
  const describe = (name: string, body: Body) => {
    path.push(name);
    body();
    path.pop();
  };
  const offered = (one: typeof it) =>
    Object.assign(one, {
      each: (rows: readonly unknown[]) => (name: string, body: Body) => {
        rows.forEach((row, i) => {
          one(`${name} ${i}`, () => (Array.isArray(row) ? body(...row) : body(row)));
        });
      },
      skipIf: (skip: unknown) => (skip ? nothing : one),
    });
  return {
    expect,
    it: offered(it),
    describe: offered(describe),
    beforeAll: (body: () => unknown) => hooks.push(body),
    afterAll: nothing,
    hooks,
  };
}
