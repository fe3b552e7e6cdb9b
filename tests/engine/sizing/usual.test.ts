import { describe, expect, it } from 'vitest';
import { type ElementKind, FIELDS, newElement, newLineUp, usualOf, withValueAt } from '../../../engine/index.ts';

/** What is said of a value that is far from what is usual. The currents are those of NEC 2023 Table 430.250 and IEC 60947-4-1 Table G.1 (the latter from memory). */

const HP_W = 745.699_871_582_270_2;
const part = (kind: ElementKind, values: object) => ({ ...newElement(newLineUp(), kind), ...values }) as ReturnType<typeof newElement>;
const motor = (values: object) => part('motor', values);
const plain = (text: string | null) => text?.replaceAll('\u00a0', ' ');

describe('current', () => {
  it.each([
    [60 * HP_W, 460, 'us', '60 hp at 460 V usually draws about 77 A'],
    [10 * HP_W, 230, 'us', '10 hp at 230 V usually draws about 28 A'],
    [30_000, 400, 'metric', '30 kW at 400 V usually draws about 55 A'],
  ] as const)('of %d W at %d V is told where none is given, and where one is far from it', (ratedPower_W, ratedVoltage_V, units, says) => {
    const bare = motor({ ratedPower_W, ratedVoltage_V });
    expect(plain(usualOf(bare, 'ratedCurrent_A', units))).toContain(`${says} (${units === 'us' ? 'NEC Table 430.250' : 'IEC 60947-4-1'}`);
    expect(plain(usualOf(motor({ ratedPower_W, ratedVoltage_V, ratedCurrent_A: 7.5 }), 'ratedCurrent_A', units))).toContain(
      `${says} (${units === 'us' ? 'NEC Table 430.250' : 'IEC 60947-4-1'}`,
    );
  });

  it('says nothing of one that is near, nor where power or voltage is not known or not in the table', () => {
    const known = { ratedPower_W: 60 * HP_W, ratedVoltage_V: 460 };
    for (const ratedCurrent_A of [68, 77, 90]) expect(usualOf(motor({ ...known, ratedCurrent_A }), 'ratedCurrent_A', 'us')).toBeNull();
    expect(usualOf(motor({ ratedPower_W: 60 * HP_W }), 'ratedCurrent_A', 'us')).toBeNull();
    expect(usualOf(motor({ ...known, ratedVoltage_V: 800 }), 'ratedCurrent_A', 'us')).toBeNull();
  });

  it('is told of a drive by the motor that it feeds', () => {
    const drive = part('drive', { ratedPower_W: 60 * HP_W, ratedVoltage_V: 480, outputCurrent_A: 770 });
    expect(plain(usualOf(drive, 'outputCurrent_A', 'us'))).toContain('60 hp at 480 V usually feeds about 77 A (NEC');
  });
});

it('what is measured in something has its range told in the units of the project, and only outside it', () => {
  expect(plain(usualOf(motor({ efficiency_pct: 9.3 }), 'efficiency_pct', 'us'))).toBe('Usually 60 % to 98.5 % (common practice).');
  expect(usualOf(motor({ efficiency_pct: 93 }), 'efficiency_pct', 'us')).toBeNull();
  expect(usualOf(motor({}), 'efficiency_pct', 'us')).toBeNull();
  expect(plain(usualOf(part('supply', { frequency_Hz: 600 }), 'frequency_Hz', 'metric'))).toBe('Usually 50 Hz to 60 Hz (common practice).');
});

it('each range belongs to a field that there is', () => {
  const kinds = Object.keys(FIELDS) as (keyof typeof FIELDS)[];
  const said = kinds.flatMap((kind) =>
    FIELDS[kind].filter(({ path }) => usualOf(withValueAt({ kind } as ReturnType<typeof newElement>, path, 1e30), path, 'us') !== null),
  );
  expect(said.length).toBe(22);
});

describe('an ordinary value', () => {
  // What anybody would write, cold and hot ends among them.
  it.each([
    ['supply', 'faultCurrent_A', [10_000, 65_000]],
    ['supply', 'xOverR', [1, 15]],
    ['transformer', 'impedance_pct', [2, 5.75]],
    ['transformer', 'xOverR', [1, 8]],
    ['disconnect', 'faultRating_A', [10_000, 100_000]],
    ['reactor', 'impedance_pct', [1.5, 5]],
    ['filter', 'drop_pct', [1, 5]],
    ['drive', 'carrier_Hz', [2000, 16_000]],
    ['drive', 'riseTime_s', [0.05e-6, 1e-6]],
    ['drive', 'inputPowerFactor', [0.65, 0.98]],
    ['drive', 'faultRating_A', [5000, 100_000]],
    ['motor', 'ratedFrequency_Hz', [50, 60]],
    ['motor', 'powerFactor', [0.7, 0.92]],
    ['motor', 'serviceFactor', [1, 1.15]],
    ['cable', 'length_m', [1, 300]],
    ['cable', 'lengthMost_m', [1, 300]],
    ['cable', 'insulation.voltage_V', [600, 2000]],
    ['cable', 'outerDiameter_mm', [8, 90]],
    ['cable', 'installation.ambient_C', [-10, 5, 50]],
    ['cable', 'installation.ambientLeast_C', [-50, -20, 20]],
  ] as const)('of a %s, %s, is passed over', (kind, path, values) => {
    const of = (value: number) => usualOf(withValueAt({ kind } as ReturnType<typeof newElement>, path, value), path, 'us');
    expect(values.map(of)).toEqual(values.map(() => null));
    // A thousand times as much is no such value, and neither is a thousandth.
    const [, most] = values;
    expect([of(Math.abs(most ?? 0) * 1000), of(-1e6)].map((said) => plain(said)?.startsWith('Usually '))).toEqual([true, true]);
  });
  it('at the very end of its range is passed over too', () => {
    const at = (efficiency_pct: number) => usualOf(motor({ efficiency_pct }), 'efficiency_pct', 'us') === null;
    expect([60, 98.5, 59.9, 98.6].map(at)).toEqual([true, true, false, false]);
  });
  it('without a unit is told as it is', () => {
    expect(plain(usualOf(motor({ powerFactor: 0.2 }), 'powerFactor', 'us'))).toContain('Usually 0.5');
    expect(usualOf(motor({ serviceFactor: 0.2 }), 'tag', 'us')).toBeNull();
  });
  it('of a link is that of a cable', () => {
    const link = { ...withValueAt({ kind: 'link' } as unknown as ReturnType<typeof newElement>, 'length_m', 9000) };
    expect(plain(usualOf(link, 'length_m', 'us'))).toMatch(/^Usually .* ft \(common practice\)/);
  });
});

describe('a current', () => {
  const known = { ratedPower_W: 30_000, ratedVoltage_V: 400 };
  const says = (values: object) => usualOf(motor(values), 'ratedCurrent_A', 'metric') !== null;
  it('of IEC 60947-4-1 holds from 380 to 415 V, and for a power within 3 %', () => {
    expect([379, 380, 415, 416].map((ratedVoltage_V) => says({ ...known, ratedVoltage_V }))).toEqual([false, true, true, false]);
    expect([29_200, 30_800, 28_900, 31_500].map((ratedPower_W) => says({ ...known, ratedPower_W }))).toEqual([true, true, false, false]);
    // 55 A at 400 V are 57.9 at 380.
    expect(plain(usualOf(motor({ ...known, ratedVoltage_V: 380 }), 'ratedCurrent_A', 'metric'))).toContain('about 57.9 A');
  });
  it('is far below 0.7 times and above 1.4 times what is usual', () => {
    const hp = { ratedPower_W: 50 * HP_W, ratedVoltage_V: 460 };
    // NEC Table 430.250: 65 A.
    expect([45.4, 45.6, 90.9, 91.1].map((ratedCurrent_A) => says({ ...hp, ratedCurrent_A }))).toEqual([true, false, false, true]);
  });
  it('is told of the current alone, of a motor as its own and of a drive as its output', () => {
    expect(usualOf(motor(known), 'tag', 'metric')).toBeNull();
    expect(usualOf(motor(known), 'outputCurrent_A', 'metric')).toBeNull();
    expect(usualOf(part('drive', known), 'ratedCurrent_A', 'metric')).toBeNull();
    expect(usualOf(part('drive', known), 'inputCurrent_A', 'metric')).toBeNull();
    expect(usualOf(part('disconnect', known), 'outputCurrent_A', 'metric')).toBeNull();
    expect(plain(usualOf(part('drive', known), 'outputCurrent_A', 'metric'))).toContain('usually feeds about 55 A');
    expect(usualOf(motor({ ratedVoltage_V: 400 }), 'ratedCurrent_A', 'metric')).toBeNull();
  });
});
