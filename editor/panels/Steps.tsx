import type { ReactNode } from 'react';

/** From finding to finding: in reach of the thumb on a phone, whatever has been scrolled. */
export interface StepsProps {
  readonly step: (by: 1 | -1) => void;
  /** What the buttons do, in more words. */
  readonly titles: readonly [before: string, next: string];
  /** What stands at the other end of the bar. */
  readonly children: ReactNode;
}

export function Steps({ step, titles, children }: StepsProps) {
  return (
    <p className="steps">
      {children}
      <button type="button" className="quiet" title={titles[0]} onClick={() => step(-1)}>
        Before
      </button>
      <button type="button" className="quiet" title={titles[1]} onClick={() => step(1)}>
        Next
      </button>
    </p>
  );
}
