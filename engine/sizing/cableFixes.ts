import { conductorSize, IEC_SIZES, US_SIZES } from '../catalog/conductors.ts';
import { lengthSaid } from '../checks/check.ts';
import type { Fix } from '../checks/finding.ts';
import type { Cable } from '../lineup/cable.ts';
import { area_mm2, choiceOf, resizing, standardSizes } from './choices.ts';
import { type Concerned, ENDS, edit, fix, type Kind, one, shown } from './fixKind.ts';

/** Changes of a cable: its size, its grounds, how it is landed and how long it is. */

const MOST_SETS = 4;

/** Sizes above or below that of the cable, nearest first. */
function otherSizes(cable: Cable, { lineUp }: Concerned, up: boolean): readonly Fix[] {
  const own = choiceOf(cable);
  if (!own) return [];
  const sizes = standardSizes(cable, lineUp.project.basis);
  const at = sizes.indexOf(own.size);
  const others = up ? sizes.slice(at + 1) : sizes.slice(0, Math.max(0, at)).reverse();
  return others.map((size) => fix(`Make ${cable.tag} ${shown(size)}`, ...resizing(cable, { ...own, size })));
}

export const landingFull: Kind = {
  name: 'landing full',
  of: ({ cables }) =>
    cables.map((cable) => {
      const edits = ENDS.flatMap((end) => (cable[end].landing === 'full' ? [] : [edit(cable, `${end}.landing`, 'full')]));
      return edits.length === 0 ? [] : [fix(`Land the shield of ${cable.tag} all round at both ends`, ...edits)];
    }),
};

/** A published guide bears a pigtail at most so many times as long as wide. */
const PIGTAIL_RATIO = 5;

export const shorterTail: Kind = {
  name: 'shorter tail',
  of: ({ cables }) =>
    cables.map((cable) => {
      const edits = ENDS.flatMap((end) => {
        const { landing, pigtailLength_mm: long, pigtailWidth_mm: wide } = cable[end];
        return landing === 'pigtail' && long !== undefined && wide !== undefined && long > PIGTAIL_RATIO * wide
          ? [edit(cable, `${end}.pigtailLength_mm`, PIGTAIL_RATIO * wide)]
          : [];
      });
      return edits.length === 0 ? [] : [fix(`Pigtails of ${cable.tag} at most ${PIGTAIL_RATIO} times as long as wide`, ...edits)];
    }),
};

export const groundsLanded: Kind = {
  name: 'grounds landed',
  of: ({ cables }) =>
    cables.map((cable) => {
      const count = cable.grounds.count ?? 0;
      const edits = ENDS.flatMap((end) => (cable[end].groundsLanded === count ? [] : [edit(cable, `${end}.groundsLanded`, count)]));
      return count === 0 || edits.length === 0 ? [] : [fix(`Land every ground of ${cable.tag} at both ends`, ...edits)];
    }),
};

export const groundSize: Kind = {
  name: 'ground size',
  of: ({ cables }) =>
    cables.map((cable) => {
      const own = conductorSize(cable.grounds.size ?? '');
      const larger = own ? (own.system === 'us' ? US_SIZES : IEC_SIZES).filter(({ area_mm2 }) => area_mm2 > own.area_mm2) : [];
      return larger.map(({ name }) => fix(`Make the grounds of ${cable.tag} ${shown(name)}`, edit(cable, 'grounds.size', name)));
    }),
};

export const anotherGround: Kind = {
  name: 'another ground',
  of: ({ cables }) =>
    cables.map((cable) => {
      const { count, size = cable.conductor.size, metal = cable.conductor.metal } = cable.grounds;
      if (size === undefined || metal === undefined || (count !== 0 && count !== 1)) return [];
      const made = [edit(cable, 'grounds.count', count + 1), ...ENDS.map((end) => edit(cable, `${end}.groundsLanded`, count + 1))];
      return count === 1
        ? [fix(`A second ground in ${cable.tag}`, ...made)]
        : [
            fix(
              `A ground of ${shown(size)} with ${cable.tag}`,
              ...made,
              edit(cable, 'grounds.size', size),
              edit(cable, 'grounds.metal', metal),
              edit(cable, 'grounds.arrangement', 'single'),
            ),
          ];
    }),
};

export const symmetricalGrounds: Kind = {
  name: 'symmetrical grounds',
  of: ({ cables }) =>
    cables.map((cable) =>
      cable.grounds.arrangement === 'single'
        ? [
            fix(
              `Symmetrical grounds in ${cable.tag}`,
              edit(cable, 'grounds.arrangement', 'symmetrical'),
              edit(cable, 'grounds.count', 3),
              ...ENDS.map((end) => edit(cable, `${end}.groundsLanded`, 3)),
            ),
          ]
        : [],
    ),
};

export const sizeUp: Kind = { name: 'size up', of: (concerned) => concerned.cables.map((cable) => otherSizes(cable, concerned, true)) };

/** Thinner phases would need less of a grounding conductor: that is no cure for one that is too thin. */
export const sizeDown: Kind = {
  name: 'size down',
  of: (concerned) =>
    concerned.finding.check === 'protective-earth' ? [] : concerned.cables.map((cable) => otherSizes(cable, concerned, false)),
};

/** The smallest that may be run in parallel by NEC 310.10(G). */
const LEAST_PARALLEL = '1/0 AWG';

export const moreSets: Kind = {
  name: 'more sets',
  of: ({ cables, lineUp }) =>
    cables.map((cable) => {
      const own = choiceOf(cable);
      if (!own) return [];
      const thin = lineUp.project.basis === 'us' && area_mm2({ ...own, sets: 1 }) < area_mm2({ size: LEAST_PARALLEL, sets: 1 });
      const size = thin ? LEAST_PARALLEL : own.size;
      return Array.from({ length: MOST_SETS }, (_, i) => i + 1)
        .filter((sets) => sets > own.sets)
        .map((sets) => fix(`Run ${cable.tag} in ${sets} sets${thin ? ` of ${size}` : ''} alike`, ...resizing(cable, { size, sets })));
    }),
};

export const oneSet: Kind = {
  name: 'one set',
  of: ({ cables, lineUp }) =>
    cables.map((cable) => {
      const own = choiceOf(cable);
      if (!own || own.sets === 1) return [];
      const larger = standardSizes(cable, lineUp.project.basis).filter((size) => area_mm2({ size, sets: 1 }) >= area_mm2(own));
      return larger.map((size) => fix(`Make ${cable.tag} one set of ${shown(size)}`, ...resizing(cable, { size, sets: 1 })));
    }),
};

export const copper: Kind = {
  name: 'copper',
  of: ({ cables }) =>
    one(
      ...cables.map(
        (cable) => cable.conductor.metal === 'aluminium' && fix(`Make ${cable.tag} copper`, edit(cable, 'conductor.metal', 'copper')),
      ),
    ),
};

/** Shares of the length as drawn: whether there is such a route is for whoever lays it to say. */
const SHORTER = [0.9, 0.75, 0.5, 0.25];

export const shorterRoute: Kind = {
  name: 'shorter route',
  of: ({ cables, lineUp }) =>
    cables.map((cable) =>
      SHORTER.flatMap((share) => {
        const most_m = cable.lengthMost_m ?? cable.length_m;
        if (most_m === undefined || most_m === 0) return [];
        const to_m = Math.round(most_m * share * 10) / 10;
        return [
          fix(
            `A route of ${lengthSaid(to_m, lineUp.project)} for ${cable.tag}`,
            edit(cable, 'length_m', to_m),
            ...(cable.lengthMost_m === undefined ? [] : [edit(cable, 'lengthMost_m', null)]),
          ),
        ];
      }),
    ),
};

export const setsAlike: Kind = {
  name: 'sets alike',
  of: ({ cables }) =>
    one(
      ...cables.map(
        (cable) =>
          (cable.setsAlike === false || cable.setsHoldAllPhases === false) &&
          fix(
            `Lay the sets of ${cable.tag} alike, each with all phases and a ground`,
            edit(cable, 'setsAlike', true),
            edit(cable, 'setsHoldAllPhases', true),
          ),
      ),
    ),
};
