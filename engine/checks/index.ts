import { feederAmpacity, leadAmpacity } from './ampacityChecks.ts';
import type { Check } from './check.ts';
import { commonMode } from './commonModeCheck.ts';
import { conductorMetal, smallestConductor } from './conductorChecks.ts';
import { feederDrop, leadDrop } from './drop.ts';
import { faultRating } from './faultChecks.ts';
import { conduitFill } from './fillChecks.ts';
import { protectiveEarth, shieldAdequacy, symmetry } from './groundChecks.ts';
import { existingCable, insulationTemperature } from './handlingChecks.ts';
import { insulationInception } from './inceptionCheck.ts';
import { insulationMoisture, insulationVoltage, insulationWall } from './insulationChecks.ts';
import { motorIsolation } from './isolationCheck.ts';
import { carrierWindow, chargingCurrentCheck, manualLimits, outputTransformer } from './outputChecks.ts';
import { partCurrent } from './partCurrentCheck.ts';
import { separation, sharedRaceway, spareConductors } from './routingChecks.ts';
import { auxiliaryCores, shieldContinuity, shieldLanding, shieldPresent } from './shieldChecks.ts';
import { harmonics, residualCurrent, supplyStiffness, voltageUnbalance } from './sourceChecks.ts';
import { inputShield, supplyEarthing } from './supplyChecks.ts';
import { bypass, outputContactor, outputDisconnect, severalMotors } from './switchingChecks.ts';
import { inputTerminals, outputCapacitor, parallelSets, terminalRange } from './terminalChecks.ts';
import { topology } from './topology.ts';
import { voltageMatch } from './voltageMatch.ts';
import { criticalLength, motorPeakVoltage } from './waveChecks.ts';

/** Every check, in the order in which a line-up is read. */
export const CHECKS: readonly Check[] = [
  topology,
  voltageMatch,
  supplyStiffness,
  supplyEarthing,
  feederAmpacity,
  faultRating,
  feederDrop,
  voltageUnbalance,
  harmonics,
  residualCurrent,
  inputShield,
  inputTerminals,
  partCurrent,
  leadAmpacity,
  leadDrop,
  smallestConductor,
  conductorMetal,
  terminalRange,
  conduitFill,
  parallelSets,
  severalMotors,
  bypass,
  outputCapacitor,
  shieldPresent,
  shieldContinuity,
  shieldLanding,
  shieldAdequacy,
  protectiveEarth,
  symmetry,
  auxiliaryCores,
  insulationWall,
  insulationMoisture,
  insulationVoltage,
  insulationTemperature,
  existingCable,
  criticalLength,
  motorPeakVoltage,
  insulationInception,
  commonMode,
  chargingCurrentCheck,
  manualLimits,
  carrierWindow,
  outputTransformer,
  separation,
  sharedRaceway,
  spareConductors,
  outputDisconnect,
  motorIsolation,
  outputContactor,
];
