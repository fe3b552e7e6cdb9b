import type { LineUp } from '../../engine/index.ts';
import { horsepower, inSteel, LineUpBuilder, shielded } from './lineUpBuilder.ts';

/** A site with so many runs off one bus, each with feeder, drive, lead and motor, and a supply that holds its voltage under all of them. */
export function manyRuns(count: number): LineUp {
  const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
  const site = new LineUpBuilder({ title: `${count} runs` })
    .part('supply', {
      tag: 'S-1',
      voltage_V: 480,
      frequency_Hz: 60,
      faultCurrent_A: Math.max(30_000, 2_000 * count),
      xOverR: 8,
      earthing: 'solid-wye',
    })
    .part('bus', { tag: 'B-1', ...marks });
  for (let i = 1; i <= count; i++) {
    site
      .from('B-1')
      .part('disconnect', { tag: `CB-${i}`, device: 'breaker', tripCurrent_A: 100, ...marks })
      .cable(inSteel('3 AWG', 100, { tag: `F-${i}` }))
      .part('drive', {
        tag: `VFD-${i}`,
        ratedPower_W: horsepower(60),
        ratedVoltage_V: 480,
        inputCurrent_A: 72,
        outputCurrent_A: 77,
        inputPowerFactor: 0.9,
        riseTime_s: 0.15e-6,
        builtInFilter: false,
        ...marks,
      })
      .cable(shielded('2 AWG', 150, { tag: `W-${i}` }))
      .part('motor', {
        tag: `M-${i}`,
        ratedPower_W: horsepower(60),
        ratedVoltage_V: 460,
        ratedFrequency_Hz: 60,
        ratedCurrent_A: 75,
        powerFactor: 0.86,
        insulation: 'mg1-part-31',
        ...marks,
      });
  }
  return site.build();
}

/** The same site with the motor lead of run 1 of another length. */
export const withLongerLead = (lineUp: LineUp, length_m = 60): LineUp => ({
  ...lineUp,
  cables: lineUp.cables.map((cable) => (cable.tag === 'W-1' ? { ...cable, length_m } : cable)),
});
