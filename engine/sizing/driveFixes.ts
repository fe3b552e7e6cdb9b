import type { ElementOf } from '../lineup/elements.ts';
import { asked, edit, fix, isKind, type Kind, one } from './fixKind.ts';

/** Changes of a drive: how it is set, what stands ahead of it, and another drive. */

const CARRIERS_HZ = [16_000, 12_000, 10_000, 8000, 6000, 5000, 4000, 3000, 2000, 1000];

export const lowerCarrier: Kind = {
  name: 'lower carrier',
  of: ({ elements }) =>
    elements
      .filter(isKind('drive'))
      .map((drive) =>
        CARRIERS_HZ.filter((each) => each < (drive.carrier_Hz ?? 0)).map((each) =>
          fix(`Set the carrier of ${drive.tag} to ${each / 1000} kHz`, edit(drive, 'carrier_Hz', each)),
        ),
      ),
};

export const higherCarrier: Kind = {
  name: 'higher carrier',
  of: ({ elements, finding }) =>
    finding.check !== 'carrier-window'
      ? []
      : elements.filter(isKind('drive')).map((drive) =>
          [...CARRIERS_HZ]
            .reverse()
            .filter((each) => each > (drive.carrier_Hz ?? Number.POSITIVE_INFINITY))
            .map((each) => fix(`Set the carrier of ${drive.tag} to ${each / 1000} kHz`, edit(drive, 'carrier_Hz', each))),
        ),
};

export const filterJumpers: Kind = {
  name: 'filter jumpers',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('drive'))
        .map(
          (drive) =>
            drive.filterJumpers === 'in' && fix(`Take out the filter jumpers of ${drive.tag}`, edit(drive, 'filterJumpers', 'out')),
        ),
    ),
};

export const scalarControl: Kind = {
  name: 'scalar control',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('drive'))
        .map((drive) => drive.control === 'vector' && fix(`Set ${drive.tag} to scalar control (V/f)`, edit(drive, 'control', 'scalar'))),
    ),
};

export const markedDevice: Kind = {
  name: 'marked device',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('drive'))
        .map(
          (drive) =>
            drive.faultRatingDeviceDrawn === false &&
            fix(
              `Fit ${drive.faultRatingDevice ?? 'the device its marking names'} ahead of ${drive.tag}`,
              edit(drive, 'faultRatingDeviceDrawn', true),
            ),
        ),
    ),
};

/** Combinations of a drive with fuses, or with fuses and a reactor, are listed for these (common practice). */
const LISTED_A = [65_000, 100_000, 200_000];

export const listedCombination: Kind = {
  name: 'listed combination',
  asks: true,
  of: ({ elements, finding }) =>
    finding.check !== 'fault-rating'
      ? []
      : elements
          .filter(isKind('drive'))
          .map((drive) =>
            LISTED_A.filter((each) => each > (drive.faultRating_A ?? Number.POSITIVE_INFINITY)).map((each) =>
              fix(
                `A combination listed for ${each / 1000} kA ahead of ${drive.tag}`,
                edit(drive, 'faultRating_A', each),
                ...asked(drive, ['faultRatingDevice', 'faultRatingDeviceDrawn']),
              ),
            ),
          ),
};

/** What the plate and the manual of one drive say does not hold for another. */
const OWN_TO_A_DRIVE = [
  'riseTime_s',
  'pulseLeast_s',
  'brakingBus_V',
  'leakageCurrent_A',
  'faultRating_A',
  'faultRatingDevice',
  'faultRatingDeviceDrawn',
  'terminalMetal',
  'terminalTemperature_C',
  'terminalSmallest',
  'terminalLargest',
  'terminalsPerPhase',
];

function anotherDrive(drive: ElementOf<'drive'>, output_A: number) {
  const { outputCurrent_A: own, inputCurrent_A, ratedPower_W } = drive;
  const share = output_A / (own ?? output_A);
  const manual = Object.keys(drive.manual ?? {}).map((key) => `manual.${key}`);
  return fix(
    `A drive of ${output_A} A output as ${drive.tag}`,
    edit(drive, 'outputCurrent_A', output_A),
    ...(inputCurrent_A === undefined ? [] : [edit(drive, 'inputCurrent_A', Number((inputCurrent_A * share).toPrecision(3)))]),
    ...(ratedPower_W === undefined ? [] : [edit(drive, 'ratedPower_W', Number((ratedPower_W * share).toPrecision(3)))]),
    ...asked(drive, [...OWN_TO_A_DRIVE, ...manual]),
  );
}

const LARGER = [1.25, 1.5, 2];

export const largerDrive: Kind = {
  name: 'larger drive',
  of: ({ elements }) =>
    elements
      .filter(isKind('drive'))
      .map((drive) =>
        drive.outputCurrent_A === undefined
          ? []
          : LARGER.map((share) => anotherDrive(drive, Math.ceil((drive.outputCurrent_A ?? 0) * share))),
      ),
};

/** A drive is oversized from here on: its feeder follows its plate, not the motor. */
const OVERSIZED = 1.3;

export const smallerDrive: Kind = {
  name: 'smaller drive',
  of: ({ elements, runs }) =>
    elements.filter(isKind('drive')).map((drive) => {
      const motors = runs.filter((run) => run.drive?.id === drive.id).map(({ motor }) => motor.ratedCurrent_A);
      const sum = motors.reduce<number>((total, each) => total + (each ?? Number.POSITIVE_INFINITY), 0);
      const enough = Math.ceil(sum * 1.1);
      return motors.length > 0 && drive.outputCurrent_A !== undefined && drive.outputCurrent_A > OVERSIZED * sum
        ? [anotherDrive(drive, enough)]
        : [];
    }),
};

export const dcChoke: Kind = {
  name: 'd.c. choke',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('drive'))
        .map((drive) => drive.dcChoke === 'none' && fix(`A d.c. choke in ${drive.tag}`, edit(drive, 'dcChoke', 'fitted'))),
    ),
};
