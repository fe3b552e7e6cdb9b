/**
 * What alternating current adds to the resistance of a round conductor among three (IEC 60287-1-1 clause 2.1; ks = kp = 1 for extruded
 * insulation). Fractions of the d.c. resistance. The third range of the skin factor is from memory of its second edition.
 */
export function skinAndProximity(input: {
  /** D.c. resistance at the operating temperature. */
  readonly direct_ohmPerM: number;
  readonly frequency_Hz: number;
  readonly diameter_mm: number;
  /** Between the axes of neighbouring conductors. */
  readonly spacing_mm: number;
}): { readonly skin: number; readonly proximity: number } {
  const { direct_ohmPerM, frequency_Hz, diameter_mm, spacing_mm } = input;
  const square = ((8 * Math.PI * frequency_Hz) / direct_ohmPerM) * 1e-7;
  const x = Math.sqrt(square);
  const small = square ** 2 / (192 + 0.8 * square ** 2);
  const skin = x <= 2.8 ? small : x <= 3.8 ? -0.136 - 0.0177 * x + 0.0563 * square : 0.354 * x - 0.733;
  const near = (diameter_mm / spacing_mm) ** 2;
  return { skin, proximity: small * near * (0.312 * near + 1.18 / (small + 0.27)) };
}
