import type { Page } from '@playwright/test';

/**
 * Counts what React does, as its own developer tools do it: by the hook that React looks for on the page. The page itself knows nothing
 * of it. A component counts as rendered when its fibre did work in a commit.
 */

export interface Counts {
  readonly commits: number;
  /** Times a part of the sheet was rendered, by its tag: its box for the hand. */
  readonly boxes: Readonly<Record<string, number>>;
  /** Times any piece of the drawing was painted anew. */
  readonly painted: number;
}

interface Fibre {
  readonly alternate: Fibre | null;
  readonly child: Fibre | null;
  readonly sibling: Fibre | null;
  readonly flags: number;
  readonly tag: number;
  readonly memoizedProps: Record<string, unknown> | null;
}

/** Before the page is loaded. */
export async function watchRenders(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const counts = { commits: 0, boxes: {} as Record<string, number>, painted: 0 };
    const PERFORMED_WORK = 1;
    const count = ({ memoizedProps: props }: Fibre) => {
      const data = props?.['data'] as { label?: string; ports?: unknown } | undefined;
      if (data?.label && data.ports) counts.boxes[data.label] = (counts.boxes[data.label] ?? 0) + 1;
      else if (props?.['items'] !== undefined && props['hidden'] === undefined) counts.painted++;
    };
    const visit = (fibre: Fibre | null, before: Fibre | null): void => {
      // What is the same object as before was left out of this commit.
      if (!fibre || fibre === before) return;
      const isComponent = [0, 1, 11, 14, 15].includes(fibre.tag);
      if (isComponent && (fibre.flags & PERFORMED_WORK) !== 0) count(fibre);
      if (before && fibre.child === before.child) return;
      for (let child = fibre.child; child; child = child.sibling) visit(child, child.alternate);
    };
    Object.assign(window, {
      counts,
      __REACT_DEVTOOLS_GLOBAL_HOOK__: {
        supportsFiber: true,
        isDisabled: false,
        checkDCE: () => undefined,
        inject: () => 1,
        onCommitFiberUnmount: () => undefined,
        onPostCommitFiberRoot: () => undefined,
        onCommitFiberRoot: (_renderer: number, root: { current: Fibre }) => {
          counts.commits++;
          visit(root.current, root.current.alternate);
        },
      },
    });
  });
}

const read = (page: Page): Promise<Counts> => page.evaluate(() => structuredClone((window as unknown as { counts: Counts }).counts));

/** What is counted while something is done, when the page has come to rest. */
export async function counted(page: Page, act: () => Promise<void>): Promise<Counts> {
  const before = await read(page);
  await act();
  let after = await read(page);
  for (let last = -1; last !== after.commits; ) {
    last = after.commits;
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    after = await read(page);
  }
  const boxes = Object.fromEntries(
    Object.entries(after.boxes).flatMap(([tag, times]) =>
      times > (before.boxes[tag] ?? 0) ? [[tag, times - (before.boxes[tag] ?? 0)]] : [],
    ),
  );
  return { commits: after.commits - before.commits, boxes, painted: after.painted - before.painted };
}
