import { create } from 'zustand';
import { VERDICTS, type Verdict } from '../../engine/index.ts';

/** How this browser likes its findings. The words looked for are not kept: a list that hides things for a reason long forgotten misleads. */

export const GROUPINGS = { none: 'worst first', run: 'by run', check: 'by check', authority: 'by authority' } as const;
export type Grouping = keyof typeof GROUPINGS;

export interface FindingsChoice {
  readonly grouping: Grouping;
  readonly verdict: Verdict | null;
}

const KEY = 'copperline.findings';
const USUAL: FindingsChoice = { grouping: 'none', verdict: null };

/** What another version, or another hand, may have left there is not trusted. */
export function choiceOf(text: string | null): FindingsChoice {
  try {
    const kept = JSON.parse(text ?? '{}') as Partial<Record<keyof FindingsChoice, unknown>> | null;
    return {
      grouping: (Object.keys(GROUPINGS) as Grouping[]).find((each) => each === kept?.grouping) ?? USUAL.grouping,
      verdict: VERDICTS.find((each) => each === kept?.verdict) ?? USUAL.verdict,
    };
  } catch {
    return USUAL;
  }
}

/** A browser may refuse its storage altogether. */
function kept(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

export const useFindingsChoice = create<FindingsChoice>(() => choiceOf(kept()));

export function chooseFindings(change: Partial<FindingsChoice>): void {
  useFindingsChoice.setState(change);
  try {
    localStorage.setItem(KEY, JSON.stringify(useFindingsChoice.getState()));
  } catch {
    // It holds until the page is closed.
  }
}
