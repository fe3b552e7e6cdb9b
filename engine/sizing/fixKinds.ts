import {
  biggerRaceway,
  copper,
  divider,
  groundSize,
  groundsLanded,
  landingFull,
  moreSets,
  otherInsulation,
  setsAlike,
  shieldedCable,
  sizeDown,
  sizeUp,
  symmetricalGrounds,
} from './cableFixes.ts';
import { type Kind, one } from './fixKind.ts';
import { dvdtFilter, lineReactor, noOutputReactor, outputReactor, terminator } from './insertedFixes.ts';
import {
  bearingProtection,
  earlyBreakContact,
  filterJumpers,
  inverterDutyMotor,
  largerSwitch,
  lowerCarrier,
  metalBox,
  noCapacitor,
  residualCurrentTypeB,
} from './partFixes.ts';

const asProposed: Kind = { name: 'as the check proposes', of: ({ finding }) => one(...finding.fixes) };

/** Every kind of change, the cheapest first: a setting or a landing, then wire, then parts to buy, then another cable or motor. */
export const KINDS: readonly Kind[] = [
  asProposed,
  landingFull,
  groundsLanded,
  metalBox,
  setsAlike,
  divider,
  earlyBreakContact,
  lowerCarrier,
  filterJumpers,
  noCapacitor,
  residualCurrentTypeB,
  groundSize,
  symmetricalGrounds,
  bearingProtection,
  sizeUp,
  sizeDown,
  moreSets,
  biggerRaceway,
  copper,
  otherInsulation,
  lineReactor,
  outputReactor,
  noOutputReactor,
  terminator,
  dvdtFilter,
  largerSwitch,
  shieldedCable,
  inverterDutyMotor,
];
