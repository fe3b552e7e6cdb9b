import { TRADE_SIZES } from '../catalog/conduitFill.ts';
import { readTrade } from '../checks/fillChecks.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { asked, ENDS, edit, fix, type Kind, one } from './fixKind.ts';

/** What a cable lies in, and beside what. */

/** All that lie in the pipe of a cable, whichever of them says so. */
const besideIn = ({ cables }: LineUp, cable: Cable): readonly Cable[] =>
  cables.filter(({ id, installation }) => cable.installation.sharedWith?.includes(id) || installation.sharedWith?.includes(cable.id));

/** One pipe is of one size: that of the others in it changes with it. */
export const biggerRaceway: Kind = {
  name: 'bigger raceway',
  of: ({ cables, lineUp }) =>
    cables.map((cable) => {
      const read = readTrade(cable.installation.racewaySize ?? '');
      const at = (TRADE_SIZES as readonly string[]).indexOf(read?.trade ?? '');
      const inIt = [cable, ...besideIn(lineUp, cable)];
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
      const others = besideIn(lineUp, cable);
      const alone = 3 * (cable.conductor.sets ?? 1);
      const crowded = (loadedConductors ?? 0) > alone || (groupedCircuits ?? 0) > 1;
      if (others.length === 0 && !crowded) return [];
      return [
        fix(
          `A raceway of its own for ${cable.tag}`,
          edit(cable, 'installation.sharedWith', []),
          ...(loadedConductors === undefined ? [] : [edit(cable, 'installation.loadedConductors', alone)]),
          ...(groupedCircuits === undefined ? [] : [edit(cable, 'installation.groupedCircuits', 1)]),
          ...others.flatMap((other) => without(other, cable)),
        ),
      ];
    }),
};
/** How many conductors are left beside the other is for whoever lays it to say: it is not more than before. */
const without = (other: Cable, cable: Cable) => {
  const { sharedWith } = other.installation;
  return sharedWith?.includes(cable.id)
    ? [
        edit(
          other,
          'installation.sharedWith',
          sharedWith.filter((id) => id !== cable.id),
        ),
      ]
    : [];
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
