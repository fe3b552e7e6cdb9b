import { isWave, LARGE_W, type Wave, waveAt } from '../checks/runWave.ts';
import type { SolvedRun } from '../checks/solved.ts';
import { makersWord, waveTree } from '../checks/waveTree.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { buildNetwork } from '../network/network.ts';
import { edgePeak, peaksAlong } from '../physics/wave/edgePeak.ts';

/** What stands at a motor's terminals after one edge, and how the peak grows with the length of the lead. For pictures and their tables. */
export interface Waveform {
  readonly motorTag: string;
  /** [seconds after the edge leaves the drive, volts line to line]. */
  readonly samples: readonly (readonly [number, number])[];
  /** Metres, and volts at the motor: as is likely, at least and at most. Empty where more than the length decides. */
  readonly byLength: readonly { readonly length_m: number; readonly low_V: number; readonly central_V: number; readonly high_V: number }[];
  readonly bus_V: number;
  readonly peak_V: number;
  readonly low_V: number;
  readonly high_V: number;
  readonly length_m: number;
  readonly critical_m: number;
  /** A way there and back, on one line without coil or branches. */
  readonly turn_s: number | null;
}

const LENGTHS = 40;

/** As much of a line-up as a wave hangs on. */
type Parts = Pick<LineUp, 'project' | 'elements' | 'cables'>;

/** Null where the peak is not solved: something is missing, or a filter's maker has the word. */
function waveOf(lineUp: Parts, run: SolvedRun): Wave | null {
  const motor = lineUp.elements.find((element) => element.id === run.motorId);
  const drive = lineUp.elements.find((element) => element.id === run.driveId);
  if (motor?.kind !== 'motor' || drive?.kind !== 'drive' || run.bus_V === null || drive.riseTime_s === undefined) return null;
  const zone = buildNetwork(lineUp).zones.find((each) => each.source.id === drive.id);
  if (!zone) return null;
  const tree = waveTree(zone.steps);
  if (makersWord(tree, motor.id)) return null;
  const wave = waveAt(tree, motor, { bus_V: run.bus_V, rise_s: drive.riseTime_s, basis: lineUp.project.basis });
  return isWave(wave) ? wave : null;
}

export function waveformOf(lineUp: LineUp, run: SolvedRun): Waveform | null {
  const wave = waveOf(lineUp, run);
  if (!wave) return null;
  const { plain, length_m, critical_m, bus_V } = wave;
  const longest = 2 * Math.max(length_m, critical_m);
  const large = isLarge(wave);
  return {
    motorTag: wave.motor.tag,
    samples: wave.samples(),
    byLength: plain
      ? Array.from({ length: LENGTHS + 1 }, (_, i) => {
          const at = (longest * i) / LENGTHS;
          return { length_m: at, ...edgePeak({ ...plain, length_m: at }, large) };
        })
      : [],
    bus_V,
    peak_V: wave.central_V,
    low_V: wave.low_V,
    high_V: wave.high_V,
    length_m,
    critical_m,
    turn_s: plain ? 1 / wave.ring_Hz / 2 : null,
  };
}

const isLarge = ({ motor }: Wave): boolean => (motor.ratedPower_W ?? 0) > LARGE_W;

/** The peak at places along the lead, as is likely, at least and at most. */
export type PeaksAlong = ReturnType<typeof peaksAlong>;

/** Only of a plain lead whose length is one: behind a coil and on a tee the wave is solved at the motors alone, and of a range of lengths the places are not known. */
export function runPeaks(lineUp: Parts, run: SolvedRun): PeaksAlong {
  const wave = waveOf(lineUp, run);
  const ranged = lineUp.cables.some(({ id, lengthMost_m }) => lengthMost_m !== undefined && run.path.includes(id));
  return wave?.plain && !ranged ? peaksAlong(wave.plain, isLarge(wave), LENGTHS) : [];
}
