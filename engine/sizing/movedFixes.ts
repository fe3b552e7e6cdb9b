import { lengthSaid } from '../checks/check.ts';
import type { Fix } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import { takeOut } from '../lineup/takeOut.ts';
import type { Step, Zone } from '../network/network.ts';
import { type Concerned, edit, isKind, type Kind } from './fixKind.ts';
import { inOnePiece } from './takenOutFixes.ts';

/** Parts that stand elsewhere. */

/** Shares of the first cable behind the drive by which it comes nearer. */
const NEARER = [0.25, 0.5, 0.75, 0.9];

export const driveNearer: Kind = {
  name: 'drive nearer to the motor',
  of: ({ runs, lineUp }) => {
    const drives = new Map(runs.flatMap(({ drive, steps }) => (drive ? [[drive.id, { drive, steps }] as const] : [])));
    return [...drives.values()].map(({ drive, steps }) => {
      const feeder = onlyCable(
        steps
          .filter(({ zone }) => zone.kind === 'input')
          .map(({ zone, step }) => ({ zone, step }))
          .reverse(),
      );
      const lead = onlyCable(steps.filter(({ zone }) => zone.kind === 'output').map(({ zone, step }) => ({ zone, step })));
      const [ahead_m, behind_m] = [mostOf(feeder), mostOf(lead)];
      if (!feeder || !lead || ahead_m === undefined || behind_m === undefined || behind_m === 0) return [];
      return NEARER.map((share): Fix => {
        const by_m = Math.round(behind_m * share * 10) / 10;
        const said = (m: number) => lengthSaid(m, lineUp.project);
        return {
          label: `Move ${drive.tag} ${said(by_m)} nearer to the motor: ${feeder.tag} ${said(ahead_m + by_m)}, ${lead.tag} ${said(behind_m - by_m)}`,
          edits: [...longerBy(feeder, by_m), ...longerBy(lead, -by_m)],
        };
      });
    });
  },
};

type Way = readonly { readonly zone: Zone; readonly step: Step }[];

/** The first cable that is met on the way, where nothing else branches off before it: what hangs on links moves along. */
function onlyCable(way: Way): Cable | null {
  for (const { zone, step } of way) {
    const { via, parent } = step;
    // What leads on from the same node would have to move along, or be longer too.
    if (via && parent >= 0 && zone.steps.filter((each) => each.parent === parent).length > 1) return null;
    if (via?.kind === 'cable' && via.cable.kind === 'cable') return via.cable;
  }
  return null;
}
const mostOf = (cable: Cable | null): number | undefined => cable?.lengthMost_m ?? cable?.length_m;
const longerBy = (cable: Cable, by_m: number) => {
  const sum = (m: number): number => Math.max(0, Number((m + by_m).toPrecision(12)));
  return (['length_m', 'lengthMost_m'] as const).flatMap((path) => {
    const own = cable[path];
    return own === undefined ? [] : [edit(cable, path, sum(own))];
  });
};

/** Disconnects behind a drive that may be taken out of their line, what led to them and on from them being of one kind. */
function disconnectsBehind({ elements, runs, lineUp }: Concerned) {
  return elements.filter(isKind('disconnect')).flatMap((disconnect) => {
    const run = runs.find(({ steps }) => steps.some(({ zone, step }) => zone.kind === 'output' && step.element === disconnect));
    // Elsewhere it would isolate the other motors of the drive too.
    const motors = run?.steps.at(-1)?.zone.steps.filter(({ element }) => element.kind === 'motor').length;
    return run?.drive && motors === 1 && inOnePiece(lineUp, disconnect.id) ? [{ disconnect, drive: run.drive }] : [];
  });
}

/** Into a cabinet that is there, or onto its other side. What the box of the disconnect was made of is then that cabinet's to say. */
const beside = (name: string, port: 'load' | 'line', label: (disconnect: string, drive: string) => string): Kind => ({
  name,
  of: (concerned) =>
    disconnectsBehind(concerned).map(({ disconnect, drive }) => {
      if (concerned.lineUp.cables.some((cable) => cable.kind === 'link' && joins(cable, disconnect.id, drive.id))) return [];
      const box = drive.box ?? 'metal';
      const edits = disconnect.box === box ? [] : [edit(disconnect, 'box', box)];
      return [
        { label: label(disconnect.tag, drive.tag), edits, moves: [{ id: disconnect.id, beside: drive.id, port, asks: ['withinSight'] }] },
      ];
    }),
});
const joins = ({ from, to }: Cable, a: string, b: string): boolean =>
  (from.element === a && to.element === b) || (from.element === b && to.element === a);

export const disconnectAtDrive: Kind = beside(
  'disconnect at the drive',
  'load',
  (disconnect, drive) => `Move ${disconnect} into the cabinet of ${drive}, and the cable to the motor in one piece`,
);

export const disconnectAhead: Kind = beside(
  'disconnect ahead of the drive',
  'line',
  (disconnect, drive) => `Move ${disconnect} ahead of ${drive}, if the motor may be isolated there`,
);

export const filterAtDrive: Kind = {
  name: 'filter at the drive',
  of: ({ elements, runs, lineUp }) =>
    elements.filter(isKind('filter')).map((filter): readonly Fix[] => {
      const run = runs.find(({ steps }) => steps.some(({ step }) => step.element === filter));
      if (!run?.drive || (filter.role !== 'sine' && filter.role !== 'dvdt') || !takeOut(lineUp, filter.id)) return [];
      return [
        {
          label: `Move ${filter.tag} to the output of ${run.drive.tag}`,
          edits: [],
          moves: [{ id: filter.id, beside: run.drive.id, port: 'load', asks: [] }],
        },
      ];
    }),
};
