import type { Verdict } from '../../engine/index.ts';
import { Badge, Word } from './Badge.tsx';

/** A verdict in a line of text: its shape and its word. */
export const VerdictWord = ({ verdict }: { readonly verdict: Verdict }) => (
  <span className="saying">
    <Badge verdict={verdict} /> <Word verdict={verdict} />
  </span>
);
