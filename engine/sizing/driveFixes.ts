import type { Fix } from '../checks/finding.ts';
import type { ElementOf } from '../lineup/elements.ts';
import { asked, edit, fix, type Kind, ofEach, stepsOfEach } from './fixKind.ts';

/** Changes of a drive: how it is set, what stands ahead of it, and another drive. */

type Drive = ElementOf<'drive'>;

const CARRIERS_HZ = [16_000, 12_000, 10_000, 8000, 6000, 5000, 4000, 3000, 2000, 1000];

export const lowerCarrier = stepsOfEach('drive', 'lower carrier', (drive) =>
  CARRIERS_HZ.filter((each) => each < (drive.carrier_Hz ?? 0)).map((each) => carrier(drive, each)),
);

export const higherCarrier = stepsOfEach('drive', 'higher carrier', (drive, { finding }) =>
  finding.check !== 'carrier-window'
    ? []
    : [...CARRIERS_HZ]
        .reverse()
        .filter((each) => each > (drive.carrier_Hz ?? Number.POSITIVE_INFINITY))
        .map((each) => carrier(drive, each)),
);
const carrier = (drive: Drive, to_Hz: number): Fix =>
  fix(`Set the carrier of ${drive.tag} to ${to_Hz / 1000} kHz`, edit(drive, 'carrier_Hz', to_Hz));

export const filterJumpers = ofEach(
  'drive',
  'filter jumpers',
  (drive) => drive.filterJumpers === 'in' && fix(`Take out the filter jumpers of ${drive.tag}`, edit(drive, 'filterJumpers', 'out')),
);

export const scalarControl = ofEach(
  'drive',
  'scalar control',
  (drive) => drive.control === 'vector' && fix(`Set ${drive.tag} to scalar control (V/f)`, edit(drive, 'control', 'scalar')),
);

export const markedDevice = ofEach(
  'drive',
  'marked device',
  (drive) =>
    drive.faultRatingDeviceDrawn === false &&
    fix(
      `Fit ${drive.faultRatingDevice ?? 'the device its marking names'} ahead of ${drive.tag}`,
      edit(drive, 'faultRatingDeviceDrawn', true),
    ),
);

/** Combinations of a drive with fuses, or with fuses and a reactor, are listed for these (common practice). */
const LISTED_A = [65_000, 100_000, 200_000];

export const listedCombination: Kind = {
  ...stepsOfEach('drive', 'listed combination', (drive, { finding }) =>
    finding.check !== 'fault-rating'
      ? []
      : LISTED_A.filter((each) => each > (drive.faultRating_A ?? Number.POSITIVE_INFINITY)).map((each) =>
          fix(
            `A combination listed for ${each / 1000} kA ahead of ${drive.tag}`,
            edit(drive, 'faultRating_A', each),
            ...asked(drive, ['faultRatingDevice', 'faultRatingDeviceDrawn']),
          ),
        ),
  ),
  asks: true,
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

/** Of another make, what its own plate and manual have yet to say. */
const saysAnew = (drive: Drive) => asked(drive, [...OWN_TO_A_DRIVE, ...Object.keys(drive.manual ?? {}).map((key) => `manual.${key}`)]);

function anotherDrive(drive: Drive, output_A: number): Fix {
  const { outputCurrent_A: own, inputCurrent_A, ratedPower_W } = drive;
  const share = output_A / (own ?? output_A);
  return fix(
    `A drive of ${output_A} A output as ${drive.tag}`,
    edit(drive, 'outputCurrent_A', output_A),
    ...(inputCurrent_A === undefined ? [] : [edit(drive, 'inputCurrent_A', Number((inputCurrent_A * share).toPrecision(3)))]),
    ...(ratedPower_W === undefined ? [] : [edit(drive, 'ratedPower_W', Number((ratedPower_W * share).toPrecision(3)))]),
    ...saysAnew(drive),
  );
}

const LARGER = [1.25, 1.5, 2];

export const largerDrive = stepsOfEach('drive', 'larger drive', (drive) => {
  const own_A = drive.outputCurrent_A;
  return own_A === undefined ? [] : LARGER.map((share) => anotherDrive(drive, Math.ceil(own_A * share)));
});

/** A drive is oversized from here on: its feeder follows its plate, not the motor. */
const OVERSIZED = 1.3;

export const smallerDrive = stepsOfEach('drive', 'smaller drive', (drive, { runs }) => {
  const motors = runs.filter((run) => run.drive?.id === drive.id).map(({ motor }) => motor.ratedCurrent_A);
  const sum = motors.reduce<number>((total, each) => total + (each ?? Number.POSITIVE_INFINITY), 0);
  const enough = Math.ceil(sum * 1.1);
  return motors.length > 0 && drive.outputCurrent_A !== undefined && drive.outputCurrent_A > OVERSIZED * sum
    ? [anotherDrive(drive, enough)]
    : [];
});

export const driveForTheSupply = stepsOfEach('drive', 'drive for the supply', (drive, { finding }) =>
  finding.check !== 'supply-earthing'
    ? []
    : [
        fix(
          `A drive made for such a supply as ${drive.tag}, without a filter to ground and its jumpers out`,
          edit(drive, 'builtInFilter', false),
          edit(drive, 'filterJumpers', 'out'),
          ...saysAnew(drive),
        ),
      ],
);

export const dcChoke = ofEach(
  'drive',
  'd.c. choke',
  (drive) => drive.dcChoke === 'none' && fix(`A d.c. choke in ${drive.tag}`, edit(drive, 'dcChoke', 'fitted')),
);
