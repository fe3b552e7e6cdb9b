import type { Verdict } from '../../engine/index.ts';
import { Badge } from './Badge.tsx';

/** A verdict in a line of text: its shape and its word. */
export const VerdictWord = ({ verdict }: { readonly verdict: Verdict }) => (
  <span className="saying">
    <Badge verdict={verdict} /> <span className={`word v-${verdict}`}>{verdict.replaceAll('-', ' ')}</span>
  </span>
);
