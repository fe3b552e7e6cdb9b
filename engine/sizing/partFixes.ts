import { nextRating_A } from '../catalog/deviceRatings.ts';
import type { Fix } from '../checks/finding.ts';
import { ENDS, edit, fix, isKind, type Kind, ofEach, one, stepsOfEach } from './fixKind.ts';
import { TRANSFORMERS_VA } from './insertedFixes.ts';

/** Changes of a part other than a drive: what it is, how it is set. */

const MOST_STEPS = 8;

export const metalBox: Kind = {
  name: 'metal box',
  of: ({ elements, cables }) =>
    elements.map((element) => {
      if (!('box' in element) || element.box !== 'plastic') return [];
      const landings = cables.flatMap((cable) =>
        ENDS.flatMap((end) =>
          cable[end].element === element.id && cable[end].landing !== 'full' ? [edit(cable, `${end}.landing`, 'full')] : [],
        ),
      );
      return [fix(`A metal box for ${element.tag}, with glands all round`, edit(element, 'box', 'metal'), ...landings)];
    }),
};

export const earlyBreakContact = ofEach(
  'disconnect',
  'early-break contact',
  (each) =>
    each.earlyBreakContact !== 'wired' && fix(`Wire an early-break contact of ${each.tag}`, edit(each, 'earlyBreakContact', 'wired')),
);

export const lockableSwitch = ofEach(
  'disconnect',
  'lockable switch',
  (each) => each.lockable === false && each.device !== 'fuse' && fix(`A lock that holds ${each.tag} open`, edit(each, 'lockable', true)),
);

/** The usual taps of a distribution transformer, below the rated one (common practice): fewer primary turns, more volts behind it. */
const TAPS_PCT = [-2.5, -5];

export const transformerTap = stepsOfEach('transformer', 'transformer tap', (transformer) =>
  TAPS_PCT.filter((each) => each < (transformer.tap_pct ?? 0)).map((each) =>
    fix(`Set the tap of ${transformer.tag} to ${each} %`.replace('-', '−'), edit(transformer, 'tap_pct', each)),
  ),
);

/** No smaller than what the whole installation may draw, and of the same impedance in per cent; not offered while that is not known. */
export const smallerTransformer = stepsOfEach('transformer', 'smaller transformer', (transformer, { lineUp }) => {
  const { ratedPower_VA: own_VA = 0 } = transformer;
  const needs_VA = lineUp.elements
    .filter(isKind('supply'))
    .map(
      ({ voltage_V, demandCurrent_A }) =>
        Math.sqrt(3) * (voltage_V ?? Number.POSITIVE_INFINITY) * (demandCurrent_A ?? Number.POSITIVE_INFINITY),
    );
  return [...TRANSFORMERS_VA]
    .reverse()
    .filter((each) => each < own_VA && each >= Math.max(...needs_VA))
    .map((each) =>
      fix(
        `A transformer of ${each / 1000} kVA as ${transformer.tag}, of the same impedance in per cent`,
        edit(transformer, 'ratedPower_VA', each),
      ),
    );
});

export const driveDutyTransformer = ofEach(
  'transformer',
  'transformer for a drive',
  (each) =>
    each.driveDuty === false &&
    fix(`A transformer whose maker allows it behind a drive, in writing, as ${each.tag}`, edit(each, 'driveDuty', true)),
);

export const noCapacitor: Kind = {
  name: 'no capacitor',
  of: ({ elements }) =>
    one(
      ...elements.map(
        (each) =>
          'capacitor' in each &&
          each.capacitor === true &&
          fix(`Take the capacitor or arrester off ${each.tag}`, edit(each, 'capacitor', false)),
      ),
    ),
};

export const residualCurrentTypeB = ofEach(
  'disconnect',
  'residual-current type B',
  (each) =>
    each.residualCurrentType !== undefined &&
    each.residualCurrentType !== 'none' &&
    each.residualCurrentType !== 'B' &&
    fix(`Make the residual-current device ${each.tag} type B`, edit(each, 'residualCurrentType', 'B')),
);

export const bearingProtection: Kind = {
  name: 'bearing protection',
  of: ({ elements }) =>
    elements
      .filter(isKind('motor'))
      .flatMap((motor) =>
        motor.bearingProtection === 'none'
          ? one(
              fix(`An insulated bearing at the non-drive end of ${motor.tag}`, edit(motor, 'bearingProtection', 'insulated-bearing')),
              fix(`A shaft ring on ${motor.tag}`, edit(motor, 'bearingProtection', 'shaft-ring')),
            )
          : [],
      ),
};

export const commonModeCores = ofEach(
  'motor',
  'common-mode cores',
  (motor) =>
    motor.bearingProtection === 'none' &&
    fix(`Common-mode cores at the drive, round the lead to ${motor.tag}`, edit(motor, 'bearingProtection', 'common-mode-cores')),
);

export const largerSwitch = stepsOfEach('disconnect', 'larger switch', (each, { lineUp }) => {
  const steps: Fix[] = [];
  for (let rating = each.ratedCurrent_A; rating !== undefined && steps.length < MOST_STEPS; ) {
    const next = nextRating_A(rating * (1 + 1e-6), lineUp.project.basis);
    if (next === null) break;
    steps.push(fix(`A switch of ${next} A for ${each.tag}`, edit(each, 'ratedCurrent_A', next)));
    rating = next;
  }
  return steps;
});

/** Of IEC 60034-18-41, the mildest first. */
const CATEGORIES = ['ivic-a', 'ivic-b', 'ivic-c', 'ivic-d'] as const;

export const inverterDutyMotor = stepsOfEach('motor', 'inverter-duty motor', ({ id, tag, insulation }) => {
  const to = (value: string, name: string): Fix => fix(`An inverter-duty motor (${name}) for ${tag}`, { id, path: 'insulation', value });
  if (insulation === undefined || insulation === 'mg1-part-30') return [to('mg1-part-31', 'MG 1 Part 31')];
  const own = (CATEGORIES as readonly string[]).indexOf(insulation);
  return own < 0 ? [] : CATEGORIES.slice(own + 1).map((each) => to(each, `IEC 60034-18-41, category ${each.slice(-1).toUpperCase()}`));
});

/** Ratings that parts are marked with (common practice). */
const FAULT_RATINGS_A = [5000, 10_000, 14_000, 18_000, 22_000, 25_000, 30_000, 35_000, 42_000, 50_000, 65_000, 85_000, 100_000, 200_000];

export const higherFaultRating: Kind = {
  name: 'higher fault rating',
  of: ({ elements }) =>
    elements.map((element) => {
      if ((element.kind !== 'bus' && element.kind !== 'disconnect') || element.faultRating_A === undefined) return [];
      const own = element.faultRating_A;
      return FAULT_RATINGS_A.filter((each) => each > own).map((each) =>
        fix(`A part marked for ${each / 1000} kA as ${element.tag}`, edit(element, 'faultRating_A', each)),
      );
    }),
};

export const interlock = ofEach(
  'contactor',
  'interlock',
  (each) =>
    each.interlock === 'none' &&
    fix(`Interlock ${each.tag}, mechanically and electrically, with the drive’s output`, edit(each, 'interlock', 'both')),
);

export const zeroCurrent = ofEach(
  'contactor',
  'zero current',
  (each) => each.opensAtZeroCurrent === false && fix(`Block the drive before ${each.tag} opens`, edit(each, 'opensAtZeroCurrent', true)),
);

export const startTogether: Kind = {
  name: 'start together',
  of: ({ elements }) => {
    const alone = elements.filter(isKind('motor')).filter(({ switchedAlone }) => switchedAlone === true);
    return one(
      alone.length > 0 &&
        fix(
          `Interlock ${alone.map(({ tag }) => tag).join(', ')} to start together`,
          ...alone.map((each) => edit(each, 'switchedAlone', false)),
        ),
    );
  },
};

export const ownProtection: Kind = {
  name: 'own protection',
  of: ({ elements }) => {
    const edits = elements
      .filter(isKind('motor'))
      .flatMap((motor) => [
        ...(motor.overload !== undefined && motor.overload !== 'own' ? [edit(motor, 'overload', 'own')] : []),
        ...(motor.ownShortCircuitDevice === false ? [edit(motor, 'ownShortCircuitDevice', true)] : []),
      ]);
    return one(edits.length > 0 && fix('An overload and a short-circuit device for each motor', ...edits));
  },
};

export const brakeSupply = ofEach(
  'motor',
  'brake supply',
  (motor) =>
    motor.brake?.fedFrom === 'drive-output' &&
    fix(`Feed the brake of ${motor.tag} from its own supply`, edit(motor, 'brake.fedFrom', 'own-supply')),
);
