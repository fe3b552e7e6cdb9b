import { badge, type Verdict } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';

/** The verdict's shape, 16 px; the word always stands beside it. */
export const Badge = ({ verdict }: { readonly verdict: Verdict }) => (
  <svg className="badge" viewBox="-2.25 -2.25 4.5 4.5" aria-hidden="true">
    <Paint items={badge(verdict)} />
  </svg>
);
