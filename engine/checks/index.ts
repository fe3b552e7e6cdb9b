import { feederAmpacity, leadAmpacity } from './ampacityChecks.ts';
import type { Check } from './check.ts';
import { conductorMetal, smallestConductor } from './conductorChecks.ts';
import { feederDrop, leadDrop } from './drop.ts';
import { insulationMoisture, insulationVoltage, insulationWall } from './insulationChecks.ts';
import { auxiliaryCores, shieldContinuity, shieldLanding, shieldPresent } from './shieldChecks.ts';
import { inputShield, supplyEarthing } from './supplyChecks.ts';
import { topology } from './topology.ts';
import { criticalLength, motorPeakVoltage } from './waveChecks.ts';

/** Every check, in the order in which a line-up is read. */
export const CHECKS: readonly Check[] = [
  topology,
  supplyEarthing,
  feederAmpacity,
  feederDrop,
  inputShield,
  leadAmpacity,
  leadDrop,
  smallestConductor,
  conductorMetal,
  shieldPresent,
  shieldContinuity,
  shieldLanding,
  auxiliaryCores,
  insulationWall,
  insulationMoisture,
  insulationVoltage,
  criticalLength,
  motorPeakVoltage,
];
