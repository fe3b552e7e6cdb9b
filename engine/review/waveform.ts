import { behindReactor, reactorAtDrive } from '../checks/reactorWave.ts';
import { waveOf } from '../checks/runWave.ts';
import type { SolvedRun } from '../checks/solved.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { latticeVoltage, peakUpTo_V } from '../physics/wave/latticePeak.ts';

/** What stands at a motor's terminals after one edge, and how the peak grows with the length of the lead. For pictures and their tables. */
export interface Waveform {
  readonly motorTag: string;
  /** [seconds after the edge leaves the drive, volts line to line]. */
  readonly samples: readonly (readonly [number, number])[];
  /** [metres, volts]; empty where a reactor makes the length count otherwise. */
  readonly byLength: readonly (readonly [number, number])[];
  readonly bus_V: number;
  readonly peak_V: number;
  readonly length_m: number;
  readonly critical_m: number;
}

const POINTS = 240;
const LENGTHS = 40;

/** Null where the peak is not solved: something is missing, or a filter's maker has the word. */
export function waveformOf(lineUp: LineUp, run: SolvedRun): Waveform | null {
  const motor = lineUp.elements.find((element) => element.id === run.motorId);
  const drive = lineUp.elements.find((element) => element.id === run.driveId);
  if (motor?.kind !== 'motor' || drive?.kind !== 'drive' || run.bus_V === null || run.peak_V === null || drive.riseTime_s === undefined)
    return null;
  const behind = run.path.slice(run.path.indexOf(drive.id) + 1);
  const cables = lineUp.cables.filter((cable) => behind.includes(cable.id)).sort((a, b) => behind.indexOf(a.id) - behind.indexOf(b.id));
  const boxes = behind.flatMap((id) => lineUp.elements.find((element) => element.id === id && element !== motor) ?? []);
  const scope = { cables, boxes, motor, basis: lineUp.project.basis };
  const reactor = reactorAtDrive(scope);
  const wave = reactor ? behindReactor(scope, reactor, run.bus_V, drive.riseTime_s) : waveOf(scope, run.bus_V, drive.riseTime_s);
  if (!wave || wave.input.length_m <= 0) return null;
  const { input } = wave;
  const delay_s = input.length_m / input.velocity_mPerS;
  const end_s = 9 * delay_s + 2 * input.ramp_s;
  const longest = 2 * Math.max(input.length_m, wave.critical_m);
  return {
    motorTag: motor.tag,
    samples:
      wave.samples ??
      Array.from({ length: POINTS + 1 }, (_, i) => [(end_s * i) / POINTS, latticeVoltage(input, (end_s * i) / POINTS)] as const),
    byLength: reactor
      ? []
      : Array.from({ length: LENGTHS + 1 }, (_, i) => {
          const length_m = (longest * i) / LENGTHS;
          return [length_m, length_m === 0 ? input.bus_V : Math.max(input.bus_V, peakUpTo_V({ ...input, length_m }))] as const;
        }),
    bus_V: run.bus_V,
    peak_V: wave.central_V,
    length_m: input.length_m,
    critical_m: wave.critical_m,
  };
}
