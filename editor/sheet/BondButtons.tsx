import { useStore } from '@xyflow/react';
import type { CSSProperties } from 'react';
import type { LineUp, Review } from '../../engine/index.ts';
import { takeFix } from '../store/editorStore.ts';
import { type Family, PX, symbolIn } from './scale.ts';
import { VALUES_FROM_ZOOM } from './sight.ts';

/** The remedy stands at the gap: one button for each box where the shield breaks and a bond would close it. */

/** From here on the words of a cable are so close under those of its box that the button stands beside them: so far aside on the screen. */
const ASIDE_px = 48;
export const asideAt = (zoom: number): number => (zoom < VALUES_FROM_ZOOM ? ASIDE_px : 0);

export interface BondButtonsProps {
  readonly lineUp: LineUp;
  readonly review: Review;
  readonly family: Family;
}

export function BondButtons({ lineUp, review, family }: BondButtonsProps) {
  const aside_px = useStore(({ transform: [, , zoom] }) => asideAt(zoom));
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
        style={
          {
            '--aside': `${aside_px}px`,
            left: (at.x_mm - 14) * PX,
            top: (at.y_mm + symbolIn(lineUp, element, family).height_mm / 2 + 4.2) * PX,
          } as CSSProperties
        }
        onClick={() => takeFix(fix)}
      >
        Bond through {element.tag}
      </button>
    );
  });
}
