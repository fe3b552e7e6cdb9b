import { conductorDiameter_mm, conductorSize } from '../catalog/conductors.ts';
import { insulationFacts, nylon_mm, wallThickness_mm } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Basis } from '../lineup/project.ts';
import { conductorImpedance } from '../physics/conductorImpedance.ts';
import { type LineBuild, type LineConstants, lineConstants } from '../physics/wave/lineConstants.ts';
import { surroundOf } from './cableModel.ts';

/** A cable of the document as waves see it. What is not known of its make is taken as a small one of building wire. */

const USUAL = { diameter_m: 2.32e-3, wall_m: 0.762e-3 } as const;

export interface CableLine extends LineConstants {
  /** One conductor of all sets together, direct current. */
  readonly resistance_ohmPerM: number;
  readonly sets: number;
}

const buildOf = (cable: Cable): LineBuild =>
  cable.construction === undefined || cable.construction === 'singles'
    ? 'loose'
    : cable.construction === 'multicore'
      ? 'multicore'
      : cable.construction === 'corrugated-armour'
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
          surround: surroundOf(cable),
        })
      : null;
  const { wave } = cable;
  const line = lineConstants({
    build: buildOf(cable),
    polymer: insulationFacts(type)?.polymer ?? null,
    conductorDiameter_m: diameter_mm === null ? USUAL.diameter_m : diameter_mm / 1000,
    wall_m: wall_mm === undefined ? USUAL.wall_m : (wall_mm + nylon_mm(type, size?.area_mm2 ?? 0)) / 1000,
    sets,
    entered: {
      impedance_ohm: wave?.impedance_ohm,
      velocity_mPerS: wave?.velocity_mPerS,
      toShield_FPerM: wave?.toShield_FPerM,
      betweenCores_FPerM: wave?.betweenCores_FPerM,
    },
  });
  return line && { ...line, resistance_ohmPerM: (resistance?.resistance_ohmPerM ?? 0) / sets, sets };
}
