import { type LineBuild, type LineConstants, lineConstants } from '../../engine/physics/wave/lineConstants.ts';

/** Constants of a typical cable by copper area: 30 mil on small wire, thicker in proportion to the root of the size up to 65 mil on 500 kcmil. */
export function typicalLine(build: LineBuild, polymer: 'pvc' | 'xlpe', area_mm2: number): LineConstants {
  // Stranded wire is 13 % thicker than a solid rod of its area.
  const diameter_m = 1.13 * Math.sqrt((4 * area_mm2) / Math.PI) * 1e-3;
  const wall_m = (0.762 + 0.889 * (Math.log(area_mm2 / 3.31) / Math.log(253.4 / 3.31))) * 1e-3;
  const line = lineConstants({ build, polymer, conductorDiameter_m: diameter_m, wall_m, sets: 1 });
  if (!line) throw new RangeError(`no line for ${area_mm2} mm2`);
  return line;
}
