import { nextRating_A } from '../catalog/deviceRatings.ts';
import type { Fix } from '../checks/finding.ts';
import { ENDS, edit, fix, isKind, type Kind, one } from './fixKind.ts';

/** Changes of a part: what it is, how it is set. */

const CARRIERS_HZ = [16_000, 12_000, 10_000, 8000, 6000, 5000, 4000, 3000, 2000, 1000];
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

export const earlyBreakContact: Kind = {
  name: 'early-break contact',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('disconnect'))
        .map(
          (each) =>
            each.earlyBreakContact !== 'wired' &&
            fix(`Wire an early-break contact of ${each.tag}`, edit(each, 'earlyBreakContact', 'wired')),
        ),
    ),
};

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

/** The usual taps of a distribution transformer, below the rated one (common practice): fewer primary turns, more volts behind it. */
const TAPS_PCT = [-2.5, -5];

export const transformerTap: Kind = {
  name: 'transformer tap',
  of: ({ elements }) =>
    elements
      .filter(isKind('transformer'))
      .map((transformer) =>
        TAPS_PCT.filter((each) => each < (transformer.tap_pct ?? 0)).map((each) =>
          fix(`Set the tap of ${transformer.tag} to ${each} %`.replace('-', '−'), edit(transformer, 'tap_pct', each)),
        ),
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

export const residualCurrentTypeB: Kind = {
  name: 'residual-current type B',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('disconnect'))
        .map(
          (each) =>
            each.residualCurrentType !== undefined &&
            each.residualCurrentType !== 'none' &&
            each.residualCurrentType !== 'B' &&
            fix(`Make the residual-current device ${each.tag} type B`, edit(each, 'residualCurrentType', 'B')),
        ),
    ),
};

export const bearingProtection: Kind = {
  name: 'bearing protection',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('motor'))
        .map(
          (motor) =>
            motor.bearingProtection === 'none' && fix(`A shaft ring on ${motor.tag}`, edit(motor, 'bearingProtection', 'shaft-ring')),
        ),
    ),
};

export const largerSwitch: Kind = {
  name: 'larger switch',
  of: ({ elements, lineUp }) =>
    elements.filter(isKind('disconnect')).map((each) => {
      const steps: Fix[] = [];
      for (let rating = each.ratedCurrent_A; rating !== undefined && steps.length < MOST_STEPS; ) {
        const next = nextRating_A(rating * (1 + 1e-6), lineUp.project.basis);
        if (next === null) break;
        steps.push(fix(`A switch of ${next} A for ${each.tag}`, edit(each, 'ratedCurrent_A', next)));
        rating = next;
      }
      return steps;
    }),
};

export const inverterDutyMotor: Kind = {
  name: 'inverter-duty motor',
  of: ({ elements }) =>
    one(
      ...elements
        .filter(isKind('motor'))
        .map(
          (motor) =>
            (motor.insulation === undefined || motor.insulation === 'mg1-part-30') &&
            fix(`An inverter-duty motor (MG 1 Part 31) for ${motor.tag}`, edit(motor, 'insulation', 'mg1-part-31')),
        ),
    ),
};
