import { conductorDiameter_mm, conductorSize } from '../catalog/conductors.ts';
import { insulationFacts, nylon_mm, wallThickness_mm } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Basis } from '../lineup/project.ts';
import { conductorImpedance } from '../physics/conductorImpedance.ts';
import { type EnteredConstants, type LineBuild, type LineConstants, lineConstants } from '../physics/wave/lineConstants.ts';
import { surroundOf } from './cableModel.ts';

/** A cable of the document as waves see it. */

/**
 * A cable of which too little is known: the lowest impedances of all that were solved, which turn most of a wave back and take most
 * current, and no loss.
 */
const WORST = { differentialLL_ohm: 23, common_ohm: 30, velocity_mPerS: 150e6 } as const;

export interface CableLine extends LineConstants {
  /** One conductor of all sets together, direct current. */
  readonly resistance_ohmPerM: number;
  readonly sets: number;
}

const buildOf = (construction: NonNullable<Cable['construction']>): LineBuild =>
  construction === 'singles'
    ? 'loose'
    : construction === 'multicore'
      ? 'multicore'
      : construction === 'corrugated-armour'
        ? 'armoured'
        : 'shielded';

/** Null when its dimensions give no line that waves could run on. */
export function cableLine(cable: Cable, basis: Basis): CableLine | null {
  const { size: name, metal, build, sets = 1 } = cable.conductor;
  const size = name === undefined ? null : conductorSize(name);
  const diameter_mm = name === undefined ? null : conductorDiameter_mm(name);
  const type = cable.insulation.type;
  const wall_mm = cable.insulation.wall_mm ?? wallThickness_mm(type, name)?.wall_mm;
  const resistance =
    size && metal
      ? conductorImpedance({
          size: size.name,
          metal,
          build,
          temperature_C: basis === 'us' ? 75 : 20,
          frequency_Hz: 60,
          surround: surroundOf(cable, 'nonmetallic'),
        })
      : null;
  const { wave, construction } = cable;
  const entered = {
    impedance_ohm: wave?.impedance_ohm,
    velocity_mPerS: wave?.velocity_mPerS,
    toShield_FPerM: wave?.toShield_FPerM,
    betweenCores_FPerM: wave?.betweenCores_FPerM,
  };
  const known = construction !== undefined && diameter_mm !== null && wall_mm !== undefined && cable.conductor.sets !== undefined;
  const line = known
    ? lineConstants({
        build: buildOf(construction),
        polymer: insulationFacts(type)?.polymer ?? null,
        conductorDiameter_m: diameter_mm / 1000,
        wall_m: (wall_mm + nylon_mm(type, size?.area_mm2 ?? 0)) / 1000,
        sets,
        entered,
      })
    : worstLine(entered, sets);
  return line && { ...line, resistance_ohmPerM: (resistance?.resistance_ohmPerM ?? 0) / sets, sets };
}

function worstLine(entered: EnteredConstants, sets: number): LineConstants {
  const velocity_mPerS = entered.velocity_mPerS ?? WORST.velocity_mPerS;
  const impedance = (entered.impedance_ohm ?? WORST.differentialLL_ohm) / sets;
  const toShield_FPerM = entered.toShield_FPerM ?? 1 / (velocity_mPerS * WORST.common_ohm);
  return {
    impedanceLL_ohm: impedance,
    lowestLL_ohm: impedance,
    highestLL_ohm: impedance,
    common_ohm: 1 / (velocity_mPerS * toShield_FPerM),
    velocity_mPerS,
    slowest_mPerS: velocity_mPerS,
    toShield_FPerM,
    betweenCores_FPerM: entered.betweenCores_FPerM ?? 0,
    skin_ohmPerMRootHz: 0,
    lossFactor: 0,
    source: 'worst of all makes: construction, size, wall or sets are not known',
  };
}
