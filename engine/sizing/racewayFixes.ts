import { TRADE_SIZES } from '../catalog/conduitFill.ts';
import { readTrade } from '../checks/fillChecks.ts';
import { besideIn, laidOut } from '../lineup/raceways.ts';
import { asked, ENDS, edit, fix, type Kind, one } from './fixKind.ts';

/** What a cable lies in, and beside what. */

/** One pipe is of one size: that of the others in it changes with it. */
export const biggerRaceway: Kind = {
  name: 'bigger raceway',
  of: ({ cables, lineUp }) =>
    cables.map((cable) => {
      const read = readTrade(cable.installation.racewaySize ?? '');
      const at = (TRADE_SIZES as readonly string[]).indexOf(read?.trade ?? '');
      const inIt = [cable, ...besideIn(lineUp.cables, cable)];
      return at < 0
        ? []
        : TRADE_SIZES.slice(at + 1).map((each) =>
            fix(
              `A ${each} in raceway for ${inIt.map(({ tag }) => tag).join(', ')}`,
              ...inIt.map((other) => edit(other, 'installation.racewaySize', read?.kind ? `${each} ${read.kind}` : each)),
            ),
          );
    }),
};

export const ownRaceway: Kind = {
  name: 'own raceway',
  of: ({ cables, lineUp }) =>
    cables.map((cable) => {
      const { loadedConductors, groupedCircuits } = cable.installation;
      const alone = 3 * (cable.conductor.sets ?? 1);
      const crowded = (loadedConductors ?? 0) > alone || (groupedCircuits ?? 0) > 1;
      if (besideIn(lineUp.cables, cable).length === 0 && !crowded) return [];
      // How many conductors are left beside the others is for whoever lays it to say: it is not more than before.
      const left = laidOut(lineUp.cables, new Set([cable.id])).filter((each, i) => each !== lineUp.cables[i] && each.id !== cable.id);
      return [
        fix(
          `A raceway of its own for ${cable.tag}`,
          edit(cable, 'installation.sharedWith', []),
          ...(loadedConductors === undefined ? [] : [edit(cable, 'installation.loadedConductors', alone)]),
          ...(groupedCircuits === undefined ? [] : [edit(cable, 'installation.groupedCircuits', 1)]),
          ...left.map((other) => edit(other, 'installation.sharedWith', other.installation.sharedWith ?? [])),
        ),
      ];
    }),
};

/** A metal pipe in place of a shield: it holds less charge, and its joints must be bonded. */
export const steelConduit: Kind = {
  name: 'steel conduit',
  of: ({ cables }) =>
    one(
      ...cables.map(
        (cable) =>
          !['steel-conduit', 'aluminium-conduit'].includes(cable.installation.raceway ?? '') &&
          fix(
            `Single conductors in a bonded steel conduit for ${cable.tag}`,
            edit(cable, 'construction', 'singles'),
            edit(cable, 'installation.raceway', 'steel-conduit'),
            ...(cable.installation.method === undefined ? [] : [edit(cable, 'installation.method', 'B1')]),
            ...ENDS.map((end) => edit(cable, `${end}.landing`, 'full')),
            ...asked(cable, [
              'installation.racewaySize',
              'outerDiameter_mm',
              'shieldArea_mm2',
              'shieldCoverage_pct',
              'phasesScreened',
              'wave',
            ]),
          ),
      ),
    ),
};

export const divider: Kind = {
  name: 'divider',
  of: ({ cables }) =>
    one(
      ...cables.map(
        (cable) =>
          cable.installation.divider !== true && fix(`A metal divider beside ${cable.tag}`, edit(cable, 'installation.divider', true)),
      ),
    ),
};

/** What drive makers' published guides ask between a motor cable and others; steel conduits may lie nearer. */
const APART_MM = { control: 500, power: 300 } as const;

export const moreDistance: Kind = {
  name: 'more distance',
  of: ({ cables, finding }) =>
    cables.map((cable) => {
      const { toControl_mm, toPower_mm } = cable.installation;
      const edits = [
        ...((toControl_mm ?? APART_MM.control) < APART_MM.control ? [edit(cable, 'installation.toControl_mm', APART_MM.control)] : []),
        ...((toPower_mm ?? APART_MM.power) < APART_MM.power ? [edit(cable, 'installation.toPower_mm', APART_MM.power)] : []),
      ];
      return finding.check === 'separation' && edits.length > 0 ? [fix(`Lay ${cable.tag} farther from what runs beside it`, ...edits)] : [];
    }),
};
