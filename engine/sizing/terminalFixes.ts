import { conductorSize } from '../catalog/conductors.ts';
import type { Fix } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import { standardSizes } from './choices.ts';
import { type Concerned, ENDS, edit, fix, type Kind, shown } from './fixKind.ts';

/** Where conductors are landed: terminals, glands, and tails of another metal. */

type Terminals = Extract<Element, { terminalLargest?: string | undefined }>;

/** Each end of each cable with the terminals that it lands on. */
function landings({ cables, elements }: Concerned) {
  const byId = new Map(elements.map((each) => [each.id, each]));
  return cables.flatMap((cable) =>
    ENDS.flatMap((end) => {
      const element = byId.get(cable[end].element ?? '');
      return element && element.kind !== 'supply' ? [{ cable, end, element: element as Terminals }] : [];
    }),
  );
}

/** As many conductors a phase as land on this side of the part; each feeder of a bus has lugs of its own. */
function conductorsOn({ cables }: LineUp, cable: Cable, end: 'from' | 'to', element: Element): number {
  const { port } = cable[end];
  const own = cable.conductor.sets ?? 1;
  if (element.kind === 'bus') return own;
  const landed = cables.filter(
    (each) =>
      each.kind === 'cable' &&
      ENDS.some((at) => each[at].element === element.id && (each[at].port === port || element.kind === 'junction')),
  );
  return landed.reduce((sum, each) => sum + (each.conductor.sets ?? 1), 0);
}

export const terminalKit: Kind = {
  name: 'terminal kit',
  of: (concerned) =>
    landings(concerned).map(({ cable, end, element }) => {
      const { size } = cable.conductor;
      const [own, least, most] = [size, element.terminalSmallest, element.terminalLargest].map(
        (name) => conductorSize(name ?? '')?.area_mm2,
      );
      const many = conductorsOn(concerned.lineUp, cable, end, element);
      const edits = [
        ...(size !== undefined && (own ?? 0) > (most ?? Number.POSITIVE_INFINITY) ? [edit(element, 'terminalLargest', size)] : []),
        ...(size !== undefined && (own ?? Number.POSITIVE_INFINITY) < (least ?? 0) ? [edit(element, 'terminalSmallest', size)] : []),
        ...(many > (element.terminalsPerPhase ?? Number.POSITIVE_INFINITY) ? [edit(element, 'terminalsPerPhase', many)] : []),
      ];
      return edits.length === 0
        ? []
        : [fix(`A terminal kit of ${element.tag}, listed for ${many > 1 ? `${many} × ` : ''}${shown(size ?? '')}`, ...edits)];
    }),
};

const TERMINALS_C = [75, 90];

export const terminalTemperature: Kind = {
  name: 'terminal temperature',
  of: (concerned) =>
    landings(concerned).map(({ element }) =>
      TERMINALS_C.filter((each) => each > (element.terminalTemperature_C ?? Number.POSITIVE_INFINITY)).map((each) =>
        fix(`Terminals marked ${each} °C on ${element.tag}`, edit(element, 'terminalTemperature_C', each)),
      ),
    ),
};

/** A gland takes about this much less and more than the middle of its range. */
const GLAND_MM = 2;

export const gland: Kind = {
  name: 'gland',
  of: ({ cables }) =>
    cables.map((cable) => {
      const outer = cable.outerDiameter_mm;
      if (outer === undefined) return [];
      const edits = ENDS.flatMap((end) => {
        const { glandLeast_mm: least, glandMost_mm: most } = cable[end];
        const fits = (least ?? outer) <= outer && (most ?? outer) >= outer;
        return fits
          ? []
          : [
              edit(cable, `${end}.glandLeast_mm`, Math.floor(outer - GLAND_MM)),
              edit(cable, `${end}.glandMost_mm`, Math.ceil(outer + GLAND_MM)),
            ];
      });
      return edits.length === 0 ? [] : [fix(`Glands that hold ${cable.tag}`, ...edits)];
    }),
};

/** Where aluminium lands on what is not marked for it. */
const onCopperOnly = (concerned: Concerned) =>
  landings(concerned).filter(({ cable, element }) => cable.conductor.metal === 'aluminium' && element.terminalMetal === 'copper-only');

export const pinAdapters: Kind = {
  name: 'pin adapters',
  of: (concerned) =>
    onCopperOnly(concerned).map(({ cable, element }) => [
      fix(`Pin adapters of ${element.tag}, listed for the aluminium of ${cable.tag}`, edit(element, 'terminalMetal', 'copper-aluminium')),
    ]),
};

/** Copper of the same resistance has this much of the area of aluminium: 61 % conductivity of the annealed copper standard. */
const SAME_RESISTANCE = 0.61;
/** From a box beside the part to its terminals. */
const TAIL_M = 2;

export const copperTails: Kind = {
  name: 'copper tails',
  of: (concerned) =>
    onCopperOnly(concerned).map((each) => tails(concerned, each, (area, own) => area >= SAME_RESISTANCE * own && area <= own)),
};

/** Conductors that were made thicker than the terminals take end in thinner ones: the thickest that fit. */
export const thinnerTails: Kind = {
  name: 'thinner tails',
  of: (concerned) =>
    landings(concerned).map((each) => {
      const [least, most] = [each.element.terminalSmallest, each.element.terminalLargest].map(
        (name) => conductorSize(name ?? '')?.area_mm2,
      );
      return each.cable.conductor.metal !== 'copper' || most === undefined
        ? []
        : tails(concerned, each, (area, own) => own > most && area <= most && area >= (least ?? 0)).reverse();
    }),
};

type Landing = ReturnType<typeof landings>[number];

/** Short pieces of copper, of each size that serves, from a box beside the part. */
function tails({ lineUp }: Concerned, { cable, end, element }: Landing, serves: (area_mm2: number, own_mm2: number) => boolean): Fix[] {
  const own = conductorSize(cable.conductor.size ?? '');
  const sizes = standardSizes({ ...cable, conductor: { ...cable.conductor, metal: 'copper' } }, lineUp.project.basis);
  const sets = cable.conductor.sets ?? 1;
  return sizes
    .filter((size) => own && serves(conductorSize(size)?.area_mm2 ?? 0, own.area_mm2))
    .map((size) => ({
      label: `Copper tails of ${sets > 1 ? `${sets} × ` : ''}${shown(size)} from ${cable.tag} to ${element.tag}, through a box`,
      edits: [],
      inserts: [
        {
          kind: 'junction',
          values: {
            box: 'metal',
            bondBar: true,
            terminalMetal: 'copper-aluminium',
            ...takes(element, own?.name ?? size, size, 2 * sets),
          },
          cable: cable.id,
          end,
          port: cable[end].port === 'line' ? 'line' : 'load',
          tail: { ...OF_A_TAIL, 'conductor.size': size, 'conductor.metal': 'copper', length_m: TAIL_M },
        },
      ],
    }));
}
/** Said of the whole cable, and not of a short piece of it. */
const OF_A_TAIL = { lengthMost_m: null, lengthOrigin: null, outerDiameter_mm: null, wave: null, note: null } as const;
/** A box for this very splice holds both sizes, at the temperature of the terminals beyond it. */
const takes = ({ terminalTemperature_C }: Terminals, larger: string, smaller: string, places: number) => ({
  terminalLargest: larger,
  terminalSmallest: smaller,
  terminalsPerPhase: places,
  ...(terminalTemperature_C === undefined ? {} : { terminalTemperature_C }),
});
