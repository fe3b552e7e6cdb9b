import type { LineUp, Review } from '../../engine/index.ts';
import { takeFix } from '../store/editorStore.ts';
import { type Family, PX, symbolIn } from './scale.ts';

/** The remedy stands at the gap: one button for each box where the shield breaks and a bond would close it. */

export interface BondButtonsProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  readonly family: Family;
}

export function BondButtons({ lineUp, review, family }: BondButtonsProps) {
  const boxes = new Set(review.runs.flatMap((run) => run.breaks).flatMap((each) => each.elementId ?? []));
  return [...boxes].map((id) => {
    const fix = review.findings.find((each) => each.check === 'shield-continuity' && each.subject.id === id && each.fixes.length > 0)
      ?.fixes[0];
    const at = lineUp.positions[id];
    const element = lineUp.elements.find((each) => each.id === id);
    if (!fix || !at || !element) return null;
    return (
      <button
        key={id}
        type="button"
        className="bond nodrag nopan"
        style={{ left: (at.x_mm - 14) * PX, top: (at.y_mm + symbolIn(lineUp, element, family).height_mm / 2 + 4.2) * PX }}
        onClick={() => takeFix(fix)}
      >
        Bond through {element.tag}
      </button>
    );
  });
}
