import { type ReactNode, useState } from 'react';

export interface FoldedProps {
  readonly summary: ReactNode;
  readonly children: () => ReactNode;
}

/** What is folded away is not made before it is unfolded: in a large line-up it is thousands of lines. */
export function Folded({ summary, children }: FoldedProps) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary}</summary>
      {open && children()}
    </details>
  );
}
