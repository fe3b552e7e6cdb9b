import { describe, expect, it } from 'vitest';
import { loadTemperature_C } from '../../engine/checks/cableAmpacity.ts';
import { complex } from '../../engine/physics/complex.ts';
import { faultCurrent_A, sourceImpedance } from '../../engine/physics/faultCurrent.ts';
import type { Amperes, Celsius, Volts } from '../../engine/physics/units.ts';

/** The compiler refuses one unit where another is asked for: these lines fail the type check if it ever stops doing so. */

describe('units in types', () => {
  it('plain numbers are taken, computed amperes are not volts', () => {
    const amperes: Amperes = faultCurrent_A(480, complex(0.01, 0.02), 'us') ?? 0;
    const volts: Volts = 480;
    expect(sourceImpedance(volts, amperes, 6, 'us').im).toBeGreaterThan(0);
    // @ts-expect-error amperes are not volts
    expect(faultCurrent_A(amperes, complex(0.01, 0.02), 'us')).not.toBeNull();
    // @ts-expect-error volts are not amperes
    expect(sourceImpedance(volts, volts, 6, 'us')).toBeDefined();
    const hot: Celsius = 90;
    // @ts-expect-error degrees are not amperes
    expect(() => loadTemperature_C({} as never, 'us', hot)).toThrow();
  });
});
