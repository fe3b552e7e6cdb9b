import { describe, expect, it } from 'vitest';
import { reactorPeakPerUnit } from '../../engine/physics/wave/reactorPeak.ts';
import { expectClose } from './expectClose.ts';

/** Overshoot of a system of second order by its damping, as text-books of control print it. 100 µH with 10 nF is 100 Ω. */
const peak = (coreLoss_ohm: number, motor_ohm: number) => reactorPeakPerUnit(100e-6, 10e-9, coreLoss_ohm, motor_ohm);

describe('a coil that rings with its cable', () => {
  it.each([
    [0.1, 1000, 1000, 72.92],
    [0.2, 1000, 1000 / 3, 52.66],
    [0.5, 200, 200, 16.3],
    [0.7, 100, 250, 4.6],
  ])('damping %d, of %d and %d Ω: %d %% over', (_, core, motor, pct) =>
    expectClose(100 * (peak(core, motor) - 1), pct, { absolute: 0.01 }, 'overshoot'),
  );
  it('critically damped or more, nothing', () => expect([peak(100, 100), peak(25, 100), peak(1, 1)]).toEqual([1, 1, 1]));
});
