import { type LineUp, type Review, runStrip, STRIP_HEIGHT_mm } from '../../engine/index.ts';
import { Paint } from '../sheet/Paint.tsx';

export interface RunPreviewProps {
  readonly lineUp: LineUp;
  readonly review: Review;
}

/** The first run unrolled, to be looked at while the five numbers are typed. */
export default function RunPreview({ lineUp, review }: RunPreviewProps) {
  const run = review.runs[0];
  if (!run) return null;
  const { items, width_mm } = runStrip(lineUp, review, run);
  return (
    <svg className="chart" viewBox={`0 0 ${width_mm} ${STRIP_HEIGHT_mm}`} role="img" aria-label={`The run of ${run.motorTag}, unrolled`}>
      <Paint items={items} />
    </svg>
  );
}
