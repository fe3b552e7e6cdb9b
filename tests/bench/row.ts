/** One line of the table: what was measured beside its yardstick, and the budget where there is one. */
export interface Row {
  readonly what: string;
  readonly figure: string;
  /** What it is measured beside, in the same run; '' where it stands for itself. */
  readonly yardstick?: string;
  readonly ratio?: string;
  readonly budget?: string;
  /** Whether it keeps to the budget, where there is one. */
  readonly met?: boolean;
}

export const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
export const times = (mine: number, its: number): string =>
  mine < its / 10 ? `1 : ${Math.round(its / mine)}` : `${(mine / its).toPrecision(3)} times`;
export const inMs = (ms: number): string =>
  ms < 1 ? `${(1000 * ms).toPrecision(3)} µs` : ms < 1000 ? `${ms.toPrecision(3)} ms` : `${(ms / 1000).toPrecision(3)} s`;

/** Short work is done so often a turn that the clock's steps do not matter. */
const TURN_ms = 20;

/**
 * Works done in turns, A B A B, so that what else the machine does falls on all of them.
 * @returns the median of each, in milliseconds, after one turn that does not count
 */
export async function inTurns<K extends string>(
  works: Readonly<Record<K, () => unknown>>,
  turns = 7,
): Promise<Readonly<Record<K, number>>> {
  const list = Object.entries(works) as [K, () => unknown][];
  const seen = new Map(list.map(([name]) => [name, [] as number[]] as const));
  const often = new Map<K, number>();
  for (let turn = 0; turn <= turns; turn++)
    for (const [name, work] of list) {
      const count = often.get(name) ?? 1;
      const from = performance.now();
      for (let i = 0; i < count; i++) await work();
      const each = (performance.now() - from) / count;
      if (turn === 0) often.set(name, Math.max(1, Math.ceil(TURN_ms / each)));
      else seen.get(name)?.push(each);
    }
  return Object.fromEntries(list.map(([name]) => [name, median(seen.get(name) ?? [])])) as Record<K, number>;
}
