import { conductorSize } from '../catalog/conductors.ts';

/** Sizes that are written and in no table: nothing that hangs on one can pass. */
export const unlisted = (...sizes: readonly (string | undefined)[]): readonly string[] =>
  sizes.filter((size) => size !== undefined && !conductorSize(size)) as readonly string[];

/** What an open finding says of them. */
export const notASize = (sizes: readonly string[]) => ({
  phrase: 'size not in tables',
  text: `Cannot be judged: ${[...new Set(sizes)].join(', ')} is not a size of the tables.`,
  remedies: ['Write a size that the tables have, such as 2 AWG or 35 mm2.'],
});
