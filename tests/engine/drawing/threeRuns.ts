import type { LineUp } from '../../../engine/index.ts';
import { LineUpBuilder } from '../lineUpBuilder.ts';

/** Three runs from one bus: a whole one, one with a gap at a plastic box, one of which hardly anything is known. */
export function threeRuns(): LineUp {
  const builder = new LineUpBuilder({ title: 'Three runs ≤ 1 Ω', number: 'E-1', revision: 'B', units: 'us' })
    .part('supply', { tag: 'UTIL', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 20_900, xOverR: 6, earthing: 'solid-wye' })
    .part('bus', { tag: 'MSB', ratedCurrent_A: 1600 });
  for (const run of [1, 2, 3]) {
    const known = run !== 3;
    const shielded = {
      conductor: { size: '2 AWG', metal: 'copper' as const },
      insulation: { type: 'XHHW-2' as const, voltage_V: 600 },
      construction: 'foil-and-braid' as const,
    };
    builder
      .from('MSB')
      .part('disconnect', { tag: `CB-${run}`, device: 'breaker', tripCurrent_A: 100, box: 'metal' })
      .cable({
        tag: `F-${run}`,
        ...(known
          ? {
              conductor: { size: '3 AWG', metal: 'copper' as const },
              construction: 'singles' as const,
              installation: { raceway: 'steel-conduit' as const },
              length_m: 42.672,
            }
          : {}),
      })
      .part('drive', {
        tag: `VFD-${run}`,
        ratedPower_W: 44_742,
        ratedVoltage_V: 480,
        outputCurrent_A: 77,
        inputCurrent_A: 72,
        carrier_Hz: 4000,
        riseTime_s: 1.5e-7,
      })
      .cable({
        tag: `W-${run}A`,
        ...(known ? { ...shielded, length_m: 59.4 } : {}),
        from: { landing: 'full' },
        to: { landing: run === 1 ? 'full' : 'none' },
      })
      .part('disconnect', { tag: `DS-${run}`, device: 'switch', box: run === 1 ? 'metal' : 'plastic', bondBar: run === 1 })
      .cable({
        tag: `W-${run}B`,
        ...(known ? { ...shielded, length_m: 4.6 } : {}),
        from: { landing: run === 1 ? 'full' : 'none' },
        to: { landing: 'full' },
      })
      .part('motor', { tag: `M-${run}`, ratedPower_W: 44_742, ratedVoltage_V: 460, ratedCurrent_A: 75, insulation: 'mg1-part-31' });
  }
  return builder.build();
}
