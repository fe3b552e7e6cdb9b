import { describe, it } from 'vitest';
import { airDensity, empirical_V, inception_V, wedge_V } from '../../engine/physics/wave/inception.ts';
import { expectClose } from './expectClose.ts';

/** Onset of discharges on insulated wire: an independent calculation of the same two laws, printed for eighteen walls and materials. */

/** Stranded conductor's radius, NEC Chapter 9 Table 8. */
const RADIUS_MM: Readonly<Record<number, number>> = { 12: 1.16, 10: 1.475, 8: 1.855, 4: 2.945 };
const mil = 25.4e-6;

/** Wall in mil, AWG, permittivity; wedge between wires and to metal; empirical between wires and to metal: peak volts. */
const TABLE = [
  [15, 12, 4.5, 2540, 1615, 2443, 1776],
  [15, 12, 8, 1739, 1145, 1875, 1363],
  [15, 12, 3.2, 3215, 2008, 2858, 2078],
  [15, 12, 2.4, 3944, 2431, 3262, 2372],
  [20, 10, 4.5, 3109, 1947, 2789, 2027],
  [20, 10, 8, 2103, 1359, 2140, 1556],
  [20, 10, 3.2, 3960, 2441, 3262, 2372],
  [20, 10, 2.4, 4882, 2973, 3724, 2707],
  [30, 12, 4.5, 4450, 2724, 3360, 2443],
  [30, 12, 8, 2954, 1857, 2579, 1875],
  [30, 12, 3.2, 5721, 3455, 3931, 2858],
  [30, 12, 2.4, 7104, 4246, 4487, 3262],
  [30, 8, 4.5, 4225, 2594, 3360, 2443],
  [30, 8, 2.4, 6730, 4033, 4487, 3262],
  [45, 4, 4.5, 5658, 3418, 4049, 2944],
  [45, 4, 8, 3717, 2300, 3108, 2259],
  [45, 4, 3.2, 7313, 4366, 4737, 3444],
  [45, 4, 2.4, 9118, 5393, 5407, 3931],
] as const;

describe('onset of discharges', () => {
  it.each(TABLE)('%d mil, %d AWG, permittivity %d', (wall, awg, permittivity, wires, metal, empiricalWires, empiricalMetal) => {
    const input = { radius_m: (RADIUS_MM[awg] ?? 0) / 1000, wall_m: wall * mil, permittivity, density: 1 };
    const close = (ours: number, printed: number) => expectClose(ours, printed, { relative: 0.004 }, 'printed table, calculated');
    close(wedge_V({ ...input, to: 'conductor' }), wires);
    close(wedge_V({ ...input, to: 'metal' }), metal);
    close(empirical_V({ ...input, to: 'conductor' }), empiricalWires);
    close(empirical_V({ ...input, to: 'metal' }), empiricalMetal);
    expectClose(inception_V({ ...input, to: 'metal' }), Math.min(metal, empiricalMetal), { relative: 0.004 }, 'the lower of the two');
  });

  const fifteen = { radius_m: 1.18e-3, wall_m: 0.381e-3, permittivity: 4.5, to: 'metal' as const };
  it('15 mil PVC on 12 AWG to metal: 1615 V by the wedge, 1776 V by the empirical law', () => {
    expectClose(wedge_V({ ...fifteen, density: 1 }), 1615, { relative: 0.002 }, 'worked example');
    expectClose(empirical_V({ ...fifteen, density: 1 }), Math.SQRT2 * 163 * (381 / 4.5) ** 0.46, { relative: 1e-9 }, 'by hand');
  });
  it('2000 m lowers it by 13 %, 75 °C by 10 % (printed)', () => {
    const against = (density: number) => wedge_V({ ...fifteen, density }) / wedge_V({ ...fifteen, density: 1 });
    expectClose(against(800 / 1013.25), 0.87, { absolute: 0.01 }, 'printed, 800 hPa');
    expectClose(against(airDensity(0, 75)), 0.9, { absolute: 0.01 }, 'printed, 75 °C');
  });
  it('the standard atmosphere: 795 hPa at 2000 m, 899 at 1000 m (ISO 2533)', () => {
    expectClose(airDensity(2000, 20) * 1013.25, 794.95, { relative: 0.001 }, 'ISO 2533');
    expectClose(airDensity(1000, 20) * 1013.25, 898.75, { relative: 0.001 }, 'ISO 2533');
  });
});
