/**
 * The peak at the end of one line, once more: the waves that go to and fro are added up in small steps of time.
 * Three edges with the same 10 to 90 % time are tried, the worst counts: 1 − exp(−t/τ) with τ ln 9, half a turn of a cosine, and a straight
 * ramp 1.25 times as long. The cosine is the worst where the motor turns little back and the line is shorter than the edge.
 * A ramp cancels itself on certain short lines, as no real edge does: it counts from three quarters of the critical length.
 * A way along the line smears a step to erfc(b / (2 √t)) (R. L. Wigington, N. S. Nahman, Proc. IRE 45, 1957, from memory), b growing with its length.
 */
export interface Line {
  readonly bus_V: number;
  /** 10 to 90 %. */
  readonly rise_s: number;
  readonly length_m: number;
  readonly velocity_mPerS: number;
  /** Both line to line. */
  readonly line_ohm: number;
  readonly motor_ohm: number;
  readonly resistance_ohmPerM: number;
  readonly diameter_m: number;
}

/** Resistance of a round copper wire grows as √f, 2.61e-7 Ω/√Hz a square; stranding and neighbours 1.8 times (from memory). */
const skin = (line: Line): number => (2.61e-7 * 1.8) / (Math.PI * line.diameter_m);

/**
 * What the sum of waves leaves out: a line that loses has an impedance that rises while the wave lasts, by K √t / (L √π) from the skin
 * effect and by R t / 2 L, and at the motor the voltage falls by its share of that. Until the first crest is over, twice a way.
 */
export function leftOut(line: Line): number {
  const lasts_s = (2 * line.length_m) / line.velocity_mPerS;
  const loop_HPerM = line.line_ohm / line.velocity_mPerS;
  const fromSkin = ((2 * skin(line)) / Math.sqrt(Math.PI)) * Math.sqrt(lasts_s / Math.PI);
  return ((fromSkin + line.resistance_ohmPerM * lasts_s) / loop_HPerM) * (line.line_ohm / (line.line_ohm + line.motor_ohm));
}

export function secondPeak(line: Line): number {
  const way = line.length_m / line.velocity_mPerS;
  const reflected = (line.motor_ohm - line.line_ohm) / (line.motor_ohm + line.line_ohm);
  const tau = line.rise_s / Math.log(9);
  const step = Math.min(way, line.rise_s) / 40;
  // The first crest of a line longer than the edge; more turns where the edge is longer than the line.
  const end = way > line.rise_s ? 3 * way : 3 * way + 3 * line.rise_s;
  const smear = ((skin(line) / Math.sqrt(Math.PI)) * line.length_m) / line.line_ohm;
  const fade = Math.exp((-line.resistance_ohmPerM * line.length_m) / line.line_ohm);
  let smooth = 0;
  let before = 0;
  let peak = 0;
  const ramp_s = 1.25 * line.rise_s;
  const straight = line.length_m >= (0.75 * line.velocity_mPerS * ramp_s) / 2;
  const span = Math.round(ramp_s / step);
  const areas: number[] = [0];
  // Half a turn of a cosine passes 10 and 90 % where its angle's cosine is 0.8 and −0.8.
  const turn_s = line.rise_s / (1 - (2 * Math.acos(0.8)) / Math.PI);
  const omega = Math.PI / turn_s;
  const turnSpan = Math.round(turn_s / step);
  const turned: (readonly [number, number])[] = [[0, 0]];
  for (let t = step; t <= end; t += step) {
    let sum = 0;
    for (let k = 0; (2 * k + 1) * way < t; k++) {
      const ways = 2 * k + 1;
      sum += (-reflected) ** k * fade ** ways * erfc((ways * smear) / (2 * Math.sqrt(t - ways * way)));
    }
    // One step of the edge's first-order lag, its input taken as a straight line between steps.
    const slope = (sum - before) / step;
    const settled = sum - slope * tau;
    smooth = settled + (smooth - (before - slope * tau)) * Math.exp(-step / tau);
    areas.push((areas.at(-1) ?? 0) + ((sum + before) / 2) * step);
    // The same over the slope of the cosine, ω / 2 sin ω x, by its two parts.
    const middle = ((sum + before) / 2) * step;
    const [cosine, sine] = turned.at(-1) ?? [0, 0];
    turned.push([cosine + middle * Math.cos(omega * (t - step / 2)), sine + middle * Math.sin(omega * (t - step / 2))]);
    const [now, then] = [turned.at(-1) ?? [0, 0], turned.at(-1 - turnSpan) ?? [0, 0]];
    const shaped = (omega / 2) * (Math.sin(omega * t) * (now[0] - then[0]) - Math.cos(omega * t) * (now[1] - then[1]));
    before = sum;
    peak = Math.max(peak, smooth, shaped);
    if (straight) peak = Math.max(peak, ((areas.at(-1) ?? 0) - (areas.at(-1 - span) ?? 0)) / (span * step));
  }
  return line.bus_V * (1 + reflected) * peak;
}

/** M. Abramowitz, I. Stegun 7.1.26, to 1.5e-7. */
function erfc(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  return t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x);
}
