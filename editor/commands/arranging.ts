import { align, distribute, type Side } from './arrange.ts';
import { type Command, changing, chosenElements } from './command.ts';

/** What lines parts up. */

const aligning = (side: Side, words: string): Command =>
  changing(
    {
      id: `align-${side}`,
      label: `Align ${words}`,
      group: 'Arrange',
      keys: [],
      step: 'Align',
      when: (scene) => chosenElements(scene).length > 1,
    },
    ({ lineUp, selected }) => ({ lineUp: align(lineUp, selected, side) }),
  );

const spacing = (way: 'x_mm' | 'y_mm', words: string): Command =>
  changing(
    {
      id: `space-${way}`,
      label: `Space evenly ${words}`,
      group: 'Arrange',
      keys: [],
      step: 'Space evenly',
      when: (scene) => chosenElements(scene).length > 2,
    },
    ({ lineUp, selected }) => ({ lineUp: distribute(lineUp, selected, way) }),
  );

export const ARRANGING: readonly Command[] = [
  aligning('left', 'left edges'),
  aligning('axis', 'on one axis'),
  aligning('right', 'right edges'),
  aligning('top', 'tops'),
  aligning('middle', 'middles'),
  aligning('bottom', 'bottoms'),
  spacing('x_mm', 'across'),
  spacing('y_mm', 'down'),
];
