/** Rounds for display, half away from zero on the decimal digits as written: 1.005 at two digits gives 1.01. */
export function roundTo(value: number, digits: number): number {
  if (!Number.isFinite(value)) return value;
  const [mantissa = '0', exponent = '0'] = Math.abs(value).toExponential().split('e');
  const shifted = Math.round(Number(`${mantissa}e${Number(exponent) + digits}`));
  return Math.sign(value) * Number(`${shifted}e${-digits}`) || 0;
}

/** Rounded, with its trailing zeros and a true minus. */
export function fixed(value: number, digits: number): string {
  return roundTo(value, digits).toFixed(digits).replace('-', '−');
}
