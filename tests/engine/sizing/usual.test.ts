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
