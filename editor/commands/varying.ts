import { freeName, MOST_VARIANTS, setAside, swapVariant, variantsOf } from '../../engine/index.ts';
import { arrange } from '../store/deskStore.ts';
import { type Command, changing } from './command.ts';

/** Other ways to build it: set aside, compared, taken back. What is done to one of several is done in the comparison. */

export const VARYING: readonly Command[] = [
  changing(
    {
      id: 'setAside',
      label: 'Set this aside as a variant',
      group: 'Edit',
      keys: [],
      step: 'Set aside as a variant',
      when: ({ lineUp }) => variantsOf(lineUp).length < MOST_VARIANTS,
    },
    ({ lineUp }) => ({ lineUp: setAside(lineUp, freeName(lineUp)) }),
  ),
  { id: 'compare', label: 'Compare variants…', group: 'View', keys: [], run: () => arrange({ comparing: true, menu: null }) },
  changing(
    {
      id: 'swap',
      label: 'Swap the last variant with the present one',
      group: 'Edit',
      keys: [],
      step: 'Swap with a variant',
      when: ({ lineUp }) => variantsOf(lineUp).length > 0,
    },
    ({ lineUp }) => {
      const last = variantsOf(lineUp).at(-1);
      return last ? { lineUp: swapVariant(lineUp, last.id), select: [] } : null;
    },
  ),
];
