import type { Choice } from '../../engine/index.ts';

/** '2 × 3/0 AWG'. The name of a size is the same in both systems of units. */
export const madeOf = ({ size, sets }: Choice): string => `${sets > 1 ? `${sets} × ` : ''}${size.replace(' mm2', ' mm²')}`;
