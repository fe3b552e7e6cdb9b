import { applyFix, type Fix, type LineUp } from '../../../engine/index.ts';
import { horsepower, LineUpBuilder, shielded } from '../lineUpBuilder.ts';

/** One run with a disconnect behind its drive, of which every value is given and sound. */

const marks = {
  box: 'metal',
  terminalTemperature_C: 75,
  terminalMetal: 'copper-aluminium',
  terminalSmallest: '14 AWG',
  terminalLargest: '1/0 AWG',
  terminalsPerPhase: 1,
} as const;
const landed = { landing: 'full', groundsLanded: 3 } as const;
const laid = (size: string, length_ft: number, tag: string) => ({
  ...shielded(size, length_ft, {
    tag,
    insulation: { type: 'XHHW-2', concentricity_pct: 90, temperatureLeast_C: -40 },
    grounds: { count: 3, size: '8 AWG', metal: 'copper', arrangement: 'symmetrical' },
    from: landed,
    to: landed,
    installation: {
      ambientLeast_C: -10,
      flexing: false,
      existing: false,
      sunlight: false,
      sharedWith: [],
      spares: 'none',
      toControl_mm: 600,
      toPower_mm: 400,
      parallel_m: 30,
      divider: false,
    },
  }),
  shieldCoverage_pct: 90,
  shieldArea_mm2: 8,
  phasesScreened: false,
});

export const builder = (): LineUpBuilder =>
  new LineUpBuilder({ title: 'one lead' })
    .part('supply', {
      tag: 'S-1',
      voltage_V: 480,
      frequency_Hz: 60,
      faultCurrent_A: 12_000,
      xOverR: 6,
      earthing: 'solid-wye',
      unbalance_pct: 1,
    })
    .part('disconnect', { tag: 'CB-1', device: 'breaker', tripCurrent_A: 80, ratedCurrent_A: 100, faultRating_A: 22_000, ...marks })
    .cable(laid('4 AWG', 90, 'F-1'))
    .part('drive', {
      tag: 'VFD-1',
      ratedVoltage_V: 480,
      ratedPower_W: horsepower(40),
      inputCurrent_A: 52,
      outputCurrent_A: 55,
      overload_pct: 110,
      inputPowerFactor: 0.9,
      frontEnd: 'diode',
      riseTime_s: 0.15e-6,
      carrier_Hz: 4000,
      dcChoke: 'fitted',
      builtInFilter: false,
      filterJumpers: 'out',
      faultRating_A: 22_000,
      faultRatingDevice: 'class J fuses',
      faultRatingDeviceDrawn: true,
      control: 'scalar',
      manual: { shieldRequired: true, lengthShielded_m: 150, lengthUnshielded_m: 200, reactorRequired: false },
      ...marks,
    })
    .cable(laid('4 AWG', 150, 'W-1A'))
    .part('disconnect', {
      tag: 'DS-1',
      device: 'switch',
      ratedCurrent_A: 100,
      earlyBreakContact: 'wired',
      withinSight: true,
      lockable: true,
      ...marks,
    })
    .cable(laid('4 AWG', 10, 'W-1B'))
    .part('motor', {
      tag: 'M-1',
      ratedPower_W: horsepower(40),
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 50,
      powerFactor: 0.86,
      insulation: 'mg1-part-31',
      bearingProtection: 'shaft-ring',
      capacitor: false,
      ...marks,
    });
export const oneLead = (): LineUp => builder().build();

/** The same with a second motor behind the disconnect. */
export const twoMotors = (): LineUp =>
  builder()
    .from('DS-1')
    .cable(laid('4 AWG', 20, 'W-1C'))
    .part('motor', {
      tag: 'M-2',
      ratedPower_W: horsepower(3),
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 4,
      powerFactor: 0.8,
      insulation: 'mg1-part-31',
      overload: 'own',
      ownShortCircuitDevice: true,
      switchedAlone: false,
      capacitor: false,
      ...marks,
    })
    .build();

/** A second drive whose unshielded lead lies in the pipe of the first one's. */
export function twoDrives(): LineUp {
  const lineUp = builder()
    .from('CB-1')
    .cable(laid('10 AWG', 90, 'F-2'))
    .part('drive', {
      tag: 'VFD-2',
      ratedVoltage_V: 480,
      inputCurrent_A: 5,
      outputCurrent_A: 5,
      riseTime_s: 0.15e-6,
      carrier_Hz: 4000,
      ...marks,
    })
    .cable({ ...laid('10 AWG', 140, 'W-2'), construction: 'singles' })
    .part('motor', {
      tag: 'M-2',
      ratedVoltage_V: 460,
      ratedFrequency_Hz: 60,
      ratedCurrent_A: 4,
      powerFactor: 0.8,
      insulation: 'mg1-part-31',
      ...marks,
    })
    .build();
  const other = lineUp.cables.find(({ tag }) => tag === 'W-2');
  return broken(lineUp, { 'W-1A': { construction: 'singles', 'installation.sharedWith': [other?.id ?? ''] } });
}

/** With these values in place of its own, by tag and path. */
export function broken(lineUp: LineUp, values: Readonly<Record<string, Readonly<Record<string, Fix['edits'][number]['value']>>>>): LineUp {
  const parts = [...lineUp.elements, ...lineUp.cables];
  const edits = Object.entries(values).flatMap(([tag, own]) => {
    const id = parts.find((part) => part.tag === tag)?.id;
    if (id === undefined) throw new Error(`no ${tag}`);
    return Object.entries(own).map(([path, value]) => ({ id, path, value }));
  });
  return applyFix(lineUp, { label: 'broken', edits });
}
