import type { FixEdit } from '../checks/finding.ts';
import type { Element, ElementOf } from '../lineup/elements.ts';
import { valueAt } from '../lineup/fields.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { type TakenOut, takeOut } from '../lineup/takeOut.ts';
import type { Run } from '../network/network.ts';
import { edit, isKind, type Kind, one, stepsOfEach } from './fixKind.ts';

/** Parts taken out of their line, or put where each motor has one of its own. */

/** Halves that differ in these are two cables, not one in two pieces. */
const ASKED_OF_ALL = ['conductor', 'insulation', 'construction', 'grounds', 'length_m'];

/** The line-up with what led to a part and on from it as one cable; null where the two are not of one kind. */
export function inOnePiece(lineUp: LineUp, id: string): TakenOut | null {
  const made = takeOut(lineUp, id);
  return made && !made.asked.some((path) => ASKED_OF_ALL.some((all) => path.startsWith(all))) ? made : null;
}

export const onePiece: Kind = {
  name: 'one piece',
  of: ({ elements, lineUp }) =>
    one(
      ...elements.filter(isKind('junction')).map(({ id, tag }) => {
        const made = inOnePiece(lineUp, id);
        return made !== null && { label: `${made.cable.tag} in one piece, without ${tag}`, edits: [], takesOut: [id] };
      }),
    ),
};

export const noReactor: Kind = {
  name: 'no reactor',
  of: ({ elements, lineUp }) =>
    one(
      ...elements
        .filter(isKind('reactor'))
        .map(({ id, tag }) => takeOut(lineUp, id) !== null && { label: `Take out ${tag}`, edits: [], takesOut: [id] }),
    ),
};

/** What a way around a drive may lead through besides its contactor. */
const IN_A_LEG: readonly Element['kind'][] = ['disconnect', 'contactor', 'reactor', 'filter', 'junction'];

/** A contactor and what lies in line with it, out to the parts where the leg leaves the run and meets it again; null where it does not. */
function legOf({ elements, cables }: LineUp, contactor: Element, onRun: ReadonlySet<string>): readonly string[] | null {
  const leg = new Set([contactor.id]);
  let ends = 0;
  for (const id of leg)
    for (const { from, to } of cables) {
      if (from.element !== id && to.element !== id) continue;
      const next = elements.find((each) => each.id === (from.element === id ? to : from).element);
      if (!next || leg.has(next.id)) continue;
      if (onRun.has(next.id)) ends++;
      else if (IN_A_LEG.includes(next.kind)) leg.add(next.id);
      else return null;
    }
  return ends === 2 ? [...leg] : null;
}

/** Where starting across the line rules a feeder. Whether anybody needs it is for people to say. */
export const noBypass: Kind = {
  name: 'no way around the drive',
  of: ({ finding, lineUp, runs }) => {
    if (finding.check !== 'feeder-ampacity' || finding.case !== 'bypass') return [];
    const onRun = new Set(runs.flatMap(({ steps }) => steps.map(({ step }) => step.element.id)));
    return one(
      ...lineUp.elements.filter(isKind('contactor')).map((each) => {
        const leg = each.role === 'bypass' && legOf(lineUp, each, onRun);
        if (!leg) return false;
        return { label: `If nobody needs it: take out the way around the drive, ${each.tag} with its cables`, edits: [], removes: leg };
      }),
    );
  },
};

/** Of a drive for one motor, by its motor: with the usual room, and on its own base as the one that it replaces. */
const ROOM = 1.1;
function driveFor({ ratedVoltage_V, inputCurrent_A, outputCurrent_A, carrier_Hz, frontEnd }: ElementOf<'drive'>, { motor }: Run) {
  const output_A = motor.ratedCurrent_A === undefined ? undefined : Math.ceil(10 * ROOM * motor.ratedCurrent_A) / 10;
  const input_A =
    output_A === undefined || inputCurrent_A === undefined || outputCurrent_A === undefined
      ? undefined
      : Number(((output_A * inputCurrent_A) / outputCurrent_A).toPrecision(3));
  const values = {
    ratedVoltage_V,
    carrier_Hz,
    frontEnd,
    ratedPower_W: motor.ratedPower_W,
    outputCurrent_A: output_A,
    inputCurrent_A: input_A,
    box: 'metal',
  };
  return Object.fromEntries(Object.entries(values).flatMap(([path, value]) => (value === undefined ? [] : [[path, value]])));
}

/** The first cable behind the drive through which nothing but this motor hangs. */
function branchOf({ motor, steps }: Run, runs: readonly Run[]) {
  const others = runs.filter((run) => run.motor !== motor).flatMap((run) => run.steps.map(({ step }) => step));
  for (const { zone, step } of steps) {
    const { via } = step;
    if (zone.kind === 'output' && via?.kind === 'cable' && via.cable.kind === 'cable' && !others.includes(step)) return via;
  }
  return null;
}

/** What comes of one drive for several motors. Of what else was said of the cable that then feeds, nothing is mended. */
const OF_A_GROUP = ['several-motors', 'manual-limits', 'charging-current'];

export const driveForEachMotor: Kind = {
  ...stepsOfEach('drive', 'a drive for each motor', (drive, { finding, runs, lineUp }) => {
    const own = runs.filter((run) => run.drive?.id === drive.id);
    const branches = own.flatMap((run) => {
      const branch = branchOf(run, own);
      return branch ? [{ run, branch }] : [];
    });
    const motors = own[0]?.steps.at(-1)?.zone.steps.filter(({ element }) => element.kind === 'motor').length ?? 0;
    const made = takeOut(lineUp, drive.id);
    const feeder = lineUp.cables.find(({ id }) => id === made?.cable.id);
    if (!OF_A_GROUP.includes(finding.check) || motors < 2 || branches.length < motors || !made || !feeder) return [];
    // What fed the drive goes on to where the motors branch off, of the make that it has; what it lies in there is asked.
    const edits = made.asked
      .filter((path) => !path.startsWith('installation'))
      .flatMap((path): FixEdit[] => {
        const value = valueAt(feeder, path);
        return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? [edit(feeder, path, value)] : [];
      });
    return [
      {
        label: `A drive for each of ${own.map(({ motor }) => motor.tag).join(', ')} in place of ${drive.tag}, where they branch off`,
        edits,
        takesOut: [drive.id],
        inserts: branches.map(({ run, branch: { cable, nearEnd } }) => ({
          kind: 'drive',
          values: driveFor(drive, run),
          cable: cable.id,
          end: nearEnd,
          port: 'load',
        })),
      },
    ];
  }),
  asks: true,
};
