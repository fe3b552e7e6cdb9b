/** Complex numbers as plain records. Units are those of the quantity. */

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const ZERO: Complex = { re: 0, im: 0 };
export const complex = (re: number, im = 0): Complex => ({ re, im });
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const multiply = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
export const scale = (a: Complex, factor: number): Complex => ({ re: a.re * factor, im: a.im * factor });
export const conjugate = (a: Complex): Complex => ({ re: a.re, im: -a.im });
export const magnitude = (a: Complex): number => sizeOf(a.re, a.im);
/** Math.hypot of two, written out: that makes a list of what it is given each time, and its last digit is not the same in every browser. */
export function sizeOf(re: number, im: number): number {
  const larger = Math.max(Math.abs(re), Math.abs(im));
  if (larger === 0 || larger === Number.POSITIVE_INFINITY) return larger;
  const x = re / larger;
  const y = im / larger;
  return Math.sqrt(x * x + y * y) * larger;
}
export const divide = (a: Complex, b: Complex): Complex => {
  const square = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
};
