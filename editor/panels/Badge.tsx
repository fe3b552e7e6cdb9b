import { badge, VERDICTS, type Verdict } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';

/** Made once: a shape that is the same object is not painted again. */
const SHAPES = new Map(VERDICTS.map((verdict) => [verdict, badge(verdict)]));

/** The verdict's shape, 16 px; the word always stands beside it. */
export const Badge = ({ verdict }: { readonly verdict: Verdict }) => (
  <svg className="badge" viewBox="-2.25 -2.25 4.5 4.5" aria-hidden="true">
    <Paint items={SHAPES.get(verdict) ?? []} />
  </svg>
);

/** Its word. */
export const Word = ({ verdict }: { readonly verdict: Verdict }) => (
  <span className={`word v-${verdict}`}>{verdict.replaceAll('-', ' ')}</span>
);
