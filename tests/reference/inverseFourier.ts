import { add, type Complex, complex, divide, multiply, scale } from '../../engine/physics/complex.ts';
import type { LatticeInput } from '../../engine/physics/wave/latticePeak.ts';

/**
 * The independent judge of lossy lines: numeric Laplace inversion by a Fourier transform of our own. It knows nothing of reflections:
 * it solves the telegraph equations at each frequency and shares no formula with the engine's lattice.
 */

/** In place, length a power of two: X[k] = sum x[n] exp(turn 2 pi j k n / N), turn -1 forward, +1 backward without the 1/N. */
export function transform(re: Float64Array, im: Float64Array, turn: -1 | 1): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j] ?? 0, re[i] ?? 0];
      [im[i], im[j]] = [im[j] ?? 0, im[i] ?? 0];
    }
  }
  for (let half = 1; half < n; half *= 2)
    for (let k = 0; k < half; k++) {
      const angle = (turn * Math.PI * k) / half;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      for (let a = k; a < n; a += 2 * half) {
        const b = a + half;
        const x = (re[b] ?? 0) * c - (im[b] ?? 0) * s;
        const y = (re[b] ?? 0) * s + (im[b] ?? 0) * c;
        re[b] = (re[a] ?? 0) - x;
        im[b] = (im[a] ?? 0) - y;
        re[a] = (re[a] ?? 0) + x;
        im[a] = (im[a] ?? 0) + y;
      }
    }
}

const power = (a: Complex, exponent: number): Complex => {
  const size = Math.hypot(a.re, a.im) ** exponent;
  const angle = Math.atan2(a.im, a.re) * exponent;
  return complex(size * Math.cos(angle), size * Math.sin(angle));
};
const exponential = (a: Complex): Complex => scale(complex(Math.cos(a.im), Math.sin(a.im)), Math.exp(a.re));

/** Volts at the motor over volts of the source at the complex frequency s: 1 / (cosh(y l) + Zc / Zm sinh(y l)). */
function transfer(line: LatticeInput & { readonly lossTangent?: number }, s: Complex): Complex {
  const { impedanceLL_ohm, velocity_mPerS, length_m, motor_ohm, resistance_ohmPerM, skin_ohmPerMRootHz, lossTangent = 0 } = line;
  // Both conductors; K sqrt(j w) has the real part k sqrt(f) and as much reactance.
  const skin = scale(power(s, 0.5), (2 * skin_ohmPerMRootHz) / Math.sqrt(Math.PI));
  const series = add(add(complex(2 * resistance_ohmPerM), skin), scale(s, impedanceLL_ohm / velocity_mPerS));
  // A loss tangent that is the same at all frequencies goes with s^(1 - 2 delta / pi); the capacitance is the given one at the ringing.
  const fade = (2 / Math.PI) * Math.atan(lossTangent);
  const ringing = (Math.PI / 2) * (velocity_mPerS / length_m);
  const across = scale(power(s, 1 - fade), (ringing ** fade * Math.cos((fade * Math.PI) / 2)) / (impedanceLL_ohm * velocity_mPerS));
  const angle = scale(power(multiply(series, across), 0.5), length_m);
  const impedance = power(divide(series, across), 0.5);
  const once = exponential(scale(angle, -1));
  const twice = multiply(once, once);
  const share = scale(impedance, 1 / motor_ohm);
  const below = add(add(complex(1), twice), multiply(share, add(complex(1), scale(twice, -1))));
  return divide(scale(once, 2), below);
}

/** Voltage at the motor after a straight ramp from a stiff source, from the start of the ramp, one value a step. */
export function rampResponse(
  line: LatticeInput & { readonly lossTangent?: number },
  until_s: number,
  points = 16384,
): { readonly step_s: number; readonly voltage_V: Float64Array } {
  // The second half of the period is thrown away: there the contour's shift lifts what is left of the error.
  const period = 2 * until_s;
  const shift = Math.log(1e6) / period;
  const re = new Float64Array(points);
  const im = new Float64Array(points);
  for (let k = 0; k <= points / 2; k++) {
    const s = complex(shift, (2 * Math.PI * k) / period);
    const ramp = divide(scale(add(complex(1), scale(exponential(scale(s, -line.ramp_s)), -1)), line.bus_V / line.ramp_s), multiply(s, s));
    const window = 0.5 * (1 + Math.cos((2 * Math.PI * k) / points));
    const value = scale(multiply(ramp, transfer(line, s)), window / period);
    re[k] = value.re;
    im[k] = value.im;
    if (k > 0 && k < points / 2) {
      re[points - k] = value.re;
      im[points - k] = -value.im;
    }
  }
  transform(re, im, 1);
  const step_s = period / points;
  return { step_s, voltage_V: re.slice(0, points / 2).map((v, n) => v * Math.exp(shift * n * step_s)) };
}
