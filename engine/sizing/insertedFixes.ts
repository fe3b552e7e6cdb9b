import { nextRating_A } from '../catalog/deviceRatings.ts';
import type { Fix } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import type { ElementOf } from '../lineup/elements.ts';
import type { Step } from '../network/network.ts';
import type { Concerned, Kind } from './fixKind.ts';

/** Parts put in. */

const REACTORS_PCT = [3, 5];
const REACTOR_PCT = 3;

/** The first cable behind the drive of a run, and the last before its motor, with their ends there. */
function leadEnds({ runs }: Concerned) {
  return runs.flatMap(({ drive, motor, steps }) => {
    const lead = steps.filter(({ zone, step }) => zone.kind === 'output' && step.via?.kind === 'cable' && step.via.cable.kind === 'cable');
    const [first, last] = [lead[0]?.step, lead.at(-1)?.step];
    const [near, far] = [first && endOf(first, 'near'), last && endOf(last, 'far')];
    return drive && near && far ? [{ drive, motor, near, far }] : [];
  });
}
function endOf({ via }: Step, which: 'near' | 'far'): { readonly cable: Cable; readonly end: 'from' | 'to' } | null {
  if (via?.kind !== 'cable') return null;
  const far = via.nearEnd === 'from' ? 'to' : 'from';
  return { cable: via.cable, end: which === 'near' ? via.nearEnd : far };
}

/** The drive of a run, and the end of its feeder there. */
function feederEnds({ runs }: Concerned) {
  return runs.flatMap(({ drive, steps }) => {
    const last = steps.findLast(({ zone }) => zone.kind === 'input')?.step;
    const at = last && endOf(last, 'far');
    return drive && at ? [{ drive, at }] : [];
  });
}

export const lineReactor: Kind = {
  name: 'line reactor',
  of: (concerned) =>
    feederEnds(concerned).map(({ drive, at }) =>
      REACTORS_PCT.map((pct) => ({
        label: `A ${pct} % reactor ahead of ${drive.tag}`,
        edits: [],
        inserts: [
          {
            kind: 'reactor',
            values: { ...reactorFor(drive, drive.inputCurrent_A), impedance_pct: pct },
            cable: at.cable.id,
            end: at.end,
            port: 'line',
          },
        ],
      })),
    ),
};

/** Powers in which dry-type transformers are made (common practice). */
export const TRANSFORMERS_VA = [15, 30, 45, 75, 112.5, 150, 225, 300, 500, 750, 1000].map((kVA) => kVA * 1000);
/** Of its own base, and X over R: a usual dry-type transformer (common practice). */
const TRANSFORMER = { impedance_pct: 5, xOverR: 2 };

export const isolationTransformer: Kind = {
  name: 'isolation transformer',
  of: (concerned) =>
    feederEnds(concerned).map(({ drive, at }): Fix[] => {
      const { ratedVoltage_V: volts, inputCurrent_A: amperes = Number.POSITIVE_INFINITY } = drive;
      const power_VA = TRANSFORMERS_VA.find((each) => each >= Math.sqrt(3) * (volts ?? Number.POSITIVE_INFINITY) * amperes);
      if (volts === undefined || power_VA === undefined) return [];
      const secondaryEarthing = concerned.lineUp.project.basis === 'us' ? 'solid-wye' : 'tn';
      const values = {
        ...TRANSFORMER,
        ratedPower_VA: power_VA,
        primaryVoltage_V: volts,
        secondaryVoltage_V: volts,
        secondaryEarthing,
        box: 'metal',
      };
      return [
        {
          label: `An isolation transformer of ${power_VA / 1000} kVA ahead of ${drive.tag}, its star point earthed`,
          edits: [],
          inserts: [{ kind: 'transformer', values, cable: at.cable.id, end: at.end, port: 'line' }],
        },
      ];
    }),
};

export const outputReactor: Kind = {
  name: 'output reactor',
  asks: true,
  of: (concerned) =>
    leadEnds(concerned).map(({ drive, near }) => [
      {
        label: `A ${REACTOR_PCT} % reactor at the output of ${drive.tag}`,
        edits: [],
        inserts: [{ kind: 'reactor', values: reactorFor(drive, drive.outputCurrent_A), cable: near.cable.id, end: near.end, port: 'load' }],
      },
    ]),
};

export const terminator: Kind = {
  name: 'terminator',
  asks: true,
  of: (concerned) =>
    leadEnds(concerned).map(({ motor, far }) => [
      {
        label: `A terminator at ${motor.tag}`,
        edits: [],
        inserts: [{ kind: 'filter', values: { role: 'terminator', box: 'metal' }, cable: far.cable.id, end: far.end, port: 'line' }],
      },
    ]),
};

/** Rated for a quarter more than the motor draws: what 115 % of the table current asks is less. */
const SWITCH_ROOM = 1.25;

export const disconnectAtMotor: Kind = {
  name: 'disconnect at the motor',
  of: (concerned) =>
    concerned.finding.check !== 'motor-isolation'
      ? []
      : leadEnds(concerned).map(({ motor, far }) => {
          const rated_A = nextRating_A(SWITCH_ROOM * (motor.ratedCurrent_A ?? 0), concerned.lineUp.project.basis);
          const values = {
            device: 'switch',
            withinSight: true,
            lockable: true,
            earlyBreakContact: 'wired',
            box: 'metal',
            ...(motor.ratedCurrent_A === undefined || rated_A === null ? {} : { ratedCurrent_A: rated_A }),
          };
          return [
            {
              label: `A disconnect at ${motor.tag} that can be locked open, its early-break contact wired`,
              edits: [],
              inserts: [{ kind: 'disconnect', values, cable: far.cable.id, end: far.end, port: 'line' }],
            },
          ];
        }),
};

export const dvdtFilter: Kind = {
  name: 'dV/dt filter',
  asks: true,
  of: (concerned) =>
    leadEnds(concerned).map(({ drive, near }) => [
      {
        label: `A dV/dt filter at ${drive.tag}`,
        edits: [],
        inserts: [{ kind: 'filter', values: { role: 'dvdt', box: 'metal' }, cable: near.cable.id, end: near.end, port: 'load' }],
      },
    ]),
};

export const sineFilter: Kind = {
  name: 'sine filter',
  asks: true,
  of: (concerned) =>
    leadEnds(concerned).map(({ drive, near }) => [
      {
        label: `A sine filter at ${drive.tag}`,
        edits: [],
        inserts: [{ kind: 'filter', values: { role: 'sine', box: 'metal' }, cable: near.cable.id, end: near.end, port: 'load' }],
      },
    ]),
};

const reactorFor = (drive: ElementOf<'drive'>, current_A: number | undefined): Record<string, string | number> => ({
  impedance_pct: REACTOR_PCT,
  ...(current_A === undefined ? {} : { ratedCurrent_A: current_A }),
  ...(drive.ratedVoltage_V === undefined ? {} : { ratedVoltage_V: drive.ratedVoltage_V }),
  box: 'metal',
});
