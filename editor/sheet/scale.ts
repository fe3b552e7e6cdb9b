import { busLength, type Element, type LineUp, symbolOf } from '../../engine/index.ts';

/** Between the millimetres of the sheet and the pixels of the canvas, and what a part's symbol takes up there. */

/** 100 % is true size on a screen of 96 dots an inch. */
export const PX = 3.78;
/** Room for the hand round a symbol. */
export const PAD_mm = 2;

export type Family = 'us' | 'iec';
export const familyOf = ({ project }: LineUp): Family => project.symbols ?? project.basis;

export const symbolIn = (lineUp: LineUp, element: Element, family: Family) =>
  symbolOf(element, family, element.kind === 'bus' ? busLength(lineUp, lineUp.positions, element.id) : undefined);
