import { conductorSize } from '../catalog/conductors.ts';
import { insulationFacts } from '../catalog/insulation.ts';
import type { Cable } from '../lineup/cable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { asked, edit, fix, type Kind, one } from './fixKind.ts';

/** Another make of cable: its insulation, its shield, its other cores. */

const inUsSizes = (cable: Cable, { project }: LineUp): boolean =>
  (conductorSize(cable.conductor.size ?? '')?.system ?? project.basis) === 'us';

/** Pulled in new, it is not the wire that was there. */
const newWire = (cable: Cable) => [
  ...asked(cable, [
    'insulation.wall_mm',
    'insulation.temperature_C',
    'insulation.temperatureLeast_C',
    'insulation.wetRated',
    'wave',
    'outerDiameter_mm',
  ]),
  ...(cable.installation.existing === true ? [edit(cable, 'installation.existing', false)] : []),
];

export const otherInsulation: Kind = {
  name: 'other insulation',
  of: ({ cables, lineUp }) =>
    cables.map((cable) => {
      // The wall of RHW-2 is half as thick again.
      const types = inUsSizes(cable, lineUp) ? ['XHHW-2', 'RHW-2'] : ['XLPE'];
      const own = cable.insulation.type;
      return own === undefined || types.at(-1) === own
        ? []
        : types
            .slice(types.indexOf(own) + 1)
            .map((type) => fix(`${type} insulation for ${cable.tag}`, edit(cable, 'insulation.type', type), ...newWire(cable)));
    }),
};

const CLASSES_V = [1000, 2000, 5000, 8000, 15_000];

export const voltageClass: Kind = {
  name: 'voltage class',
  of: ({ cables }) =>
    cables.map((cable) => {
      const own = cable.insulation.voltage_V ?? insulationFacts(cable.insulation.type)?.voltage_V ?? 0;
      return CLASSES_V.filter((each) => each > own).map((each) =>
        fix(
          `A cable of the ${each} V class for ${cable.tag}`,
          edit(cable, 'insulation.voltage_V', each),
          ...asked(cable, ['insulation.wall_mm', 'outerDiameter_mm', 'wave']),
        ),
      );
    }),
};

export const shieldedCable: Kind = {
  name: 'shielded cable',
  of: ({ cables }) =>
    cables.map((cable) =>
      cable.construction === 'singles' || cable.construction === 'multicore'
        ? [
            fix(
              `A shielded cable for ${cable.tag}`,
              edit(cable, 'construction', 'foil-and-braid'),
              ...(cable.installation.method === 'B1' ? [edit(cable, 'installation.method', 'B2')] : []),
              ...(cable.installation.method === 'F' ? [edit(cable, 'installation.method', 'E')] : []),
              edit(cable, 'from.landing', 'full'),
              edit(cable, 'to.landing', 'full'),
              ...(cable.outerDiameter_mm === undefined ? [] : [edit(cable, 'outerDiameter_mm', null)]),
            ),
          ]
        : [],
    ),
};

/** What a drive maker's published manual and common practice ask of a shield: it covers 85 %, has a tenth of a phase's area and holds all phases together. */
const COVERS_PCT = 85;

export const betterShield: Kind = {
  name: 'better shield',
  of: ({ cables }) =>
    cables.map((cable) => {
      const phase = conductorSize(cable.conductor.size ?? '');
      const least_mm2 = phase ? Math.ceil(phase.area_mm2) / 10 : undefined;
      const edits = [
        ...(cable.phasesScreened === true ? [edit(cable, 'phasesScreened', false)] : []),
        ...(cable.construction === 'interlocked-armour' ? [edit(cable, 'construction', 'corrugated-armour')] : []),
        ...((cable.shieldCoverage_pct ?? COVERS_PCT) < COVERS_PCT ? [edit(cable, 'shieldCoverage_pct', COVERS_PCT)] : []),
        ...(least_mm2 !== undefined && (cable.shieldArea_mm2 ?? least_mm2) < least_mm2 ? [edit(cable, 'shieldArea_mm2', least_mm2)] : []),
      ];
      return edits.length === 0
        ? []
        : [fix(`A cable with a denser shield round all phases for ${cable.tag}`, ...edits, ...asked(cable, ['outerDiameter_mm', 'wave']))];
    }),
};

export const screenedCores: Kind = {
  name: 'screened cores',
  of: ({ cables, lineUp }) =>
    one(
      ...cables.map((cable) => {
        const most_V = Math.max(
          cable.insulation.voltage_V ?? insulationFacts(cable.insulation.type)?.voltage_V ?? 0,
          ...voltagesOf(lineUp),
        );
        const edits = cable.auxiliary.flatMap((group, i) => [
          ...(group.screened === false ? [edit(cable, `auxiliary.${i}.screened`, true)] : []),
          ...(group.screened === false || (group.screenLanded ?? 'both') !== 'both'
            ? [edit(cable, `auxiliary.${i}.screenLanded`, 'both')]
            : []),
          ...((group.insulation_V ?? most_V) < most_V ? [edit(cable, `auxiliary.${i}.insulation_V`, most_V)] : []),
        ]);
        return (
          edits.length > 0 && fix(`Screened cores of the power’s insulation beside those of ${cable.tag}, landed at both ends`, ...edits)
        );
      }),
    ),
};
const voltagesOf = ({ elements }: LineUp): readonly number[] =>
  elements.flatMap((each) => (each.kind === 'drive' && each.ratedVoltage_V !== undefined ? [each.ratedVoltage_V] : []));

/** The new cable is control wiring, which is not drawn: how far from the motor’s it lies is asked anew. */
export const ownCableForCores: Kind = {
  name: 'own cable for the cores',
  of: ({ cables }) =>
    one(
      ...cables.map(
        (cable) =>
          cable.auxiliary.length > 0 &&
          fix(
            `A cable of its own, apart, for the ${cable.auxiliary.map(({ use }) => use).join(' and ')} cores of ${cable.tag}`,
            edit(cable, 'auxiliary', []),
            ...asked(cable, ['installation.toControl_mm', 'outerDiameter_mm']),
          ),
      ),
    ),
};

export const madeForThePlace: Kind = {
  name: 'made for the place',
  of: ({ cables }) =>
    one(
      ...cables.map((cable) => {
        const { flexing, sunlight, ambientLeast_C } = cable.installation;
        const { sunlightRated, temperatureLeast_C, type } = cable.insulation;
        const stiff = flexing === true && cable.conductor.build !== undefined && cable.conductor.build !== 'flexible';
        const cold = ambientLeast_C !== undefined && (temperatureLeast_C !== undefined || type !== undefined);
        const edits = [
          ...(stiff ? [edit(cable, 'conductor.build', 'flexible')] : []),
          ...(sunlight === true && sunlightRated === false ? [edit(cable, 'insulation.sunlightRated', true)] : []),
          ...(cold && (temperatureLeast_C ?? 0) > ambientLeast_C ? [edit(cable, 'insulation.temperatureLeast_C', ambientLeast_C)] : []),
        ];
        return edits.length > 0 && fix(`A cable made for sun, cold and movement as they are for ${cable.tag}`, ...edits);
      }),
    ),
};
