/** Rounds for display, half away from zero on the decimal digits as written: 1.005 at two digits gives 1.01. */
export function roundTo(value: number, digits: number): number {
  if (!Number.isFinite(value)) return value;
  // Where the digits leave no doubt, a division gives the same number as reading them would, many times faster: both operands are exact.
  const power = POWERS[digits] ?? Number.POSITIVE_INFINITY;
  const scaled = Math.abs(value) * power;
  if (scaled < CLEAR_BELOW && Math.abs((scaled % 1) - 0.5) > DOUBT) return (Math.sign(value) * Math.round(scaled)) / power || 0;
  // In whole numbers: 16 figures and a half are more than a double holds.
  const [mantissa = '', exponent = ''] = Math.abs(value).toExponential().split('e');
  const figures = mantissa.replace('.', '');
  const kept = Number(exponent) + 1 + digits;
  if (kept >= figures.length) return value || 0;
  if (kept < 0) return 0;
  const whole = BigInt(figures.slice(0, kept)) + (Number(figures[kept]) >= 5 ? 1n : 0n);
  return Math.sign(value) * Number(`${whole}e${-digits}`) || 0;
}

const POWERS: readonly number[] = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];
/** Below this the product is off by less than a ten-millionth, and this far from a half there is no doubt. */
const CLEAR_BELOW = 1e9;
const DOUBT = 1e-6;

/** Rounded to so many figures, wherever its point stands. */
export const toFigures = (value: number, figures: number): number =>
  value === 0 ? 0 : roundTo(value, figures - 1 - Math.floor(Math.log10(Math.abs(value))));

/** Rounded, with its trailing zeros and a true minus. */
export function fixed(value: number, digits: number): string {
  const rounded = roundTo(value, digits);
  return rounded < 0 ? `−${(-rounded).toFixed(digits)}` : rounded.toFixed(digits);
}
