/** Rounds for display, half away from zero on the decimal digits as written: 1.005 at two digits gives 1.01. */
export function roundTo(value: number, digits: number): number {
  if (!Number.isFinite(value)) return value;
  // Where the digits leave no doubt, a division gives the same number as reading them would, many times faster: both operands are exact.
  const power = POWERS[digits];
  const scaled = power === undefined ? Number.POSITIVE_INFINITY : Math.abs(value) * power;
  if (power !== undefined && scaled < CLEAR_BELOW && Math.abs((scaled % 1) - 0.5) > DOUBT)
    return (Math.sign(value) * Math.round(scaled)) / power || 0;
  const [mantissa = '0', exponent = '0'] = Math.abs(value).toExponential().split('e');
  const shifted = Math.round(Number(`${mantissa}e${Number(exponent) + digits}`));
  return Math.sign(value) * Number(`${shifted}e${-digits}`) || 0;
}

const POWERS: readonly number[] = Array.from({ length: 10 }, (_, digits) => 10 ** digits);
/** Below this the product is off by less than a ten-millionth, and this far from a half there is no doubt. */
const CLEAR_BELOW = 1e9;
const DOUBT = 1e-6;

/** Rounded to so many figures, wherever its point stands. */
export const toFigures = (value: number, figures: number): number =>
  value === 0 ? 0 : roundTo(value, figures - 1 - Math.floor(Math.log10(Math.abs(value))));

/** Rounded, with its trailing zeros and a true minus. */
export function fixed(value: number, digits: number): string {
  return roundTo(value, digits).toFixed(digits).replace('-', '−');
}
