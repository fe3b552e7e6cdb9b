import { carrierOf } from '../checks/shieldPath.ts';
import type { Review, SolvedRun } from '../checks/solved.ts';
import { buildText, groundsText, racewayText } from '../drawing/labels.ts';
import type { Cable } from '../lineup/cable.ts';
import type { Element } from '../lineup/elements.ts';
import { isCable } from '../lineup/isCable.ts';
import type { LineUp } from '../lineup/lineUp.ts';
import type { Table } from './content.ts';
import { landingWords } from './ends.ts';

/** The way of the shield and of the grounding conductor, walked from drive to motor, a place a row. */

const STATES = {
  continuous: 'whole',
  broken: 'interrupted',
  open: 'not known to be whole',
  none: 'no shield and no metal raceway',
} as const;

export const pathTables = (lineUp: LineUp, review: Review): readonly Table[] =>
  review.runs.map((run) => ({
    title: `Path of ${run.motorTag}: ${STATES[run.shield]}`,
    empty: 'No cable leads there.',
    columns: [
      { head: 'Place', w: 26 },
      { head: 'What it is', grow: 1 },
      { head: 'Shield', grow: 1.6 },
      { head: 'Grounding conductors', grow: 1.2 },
      { head: 'State', w: 30 },
    ],
    rows: walk(lineUp, run),
  }));

function walk(lineUp: LineUp, run: SolvedRun): readonly (readonly string[])[] {
  const parts = new Map<string, Element | Cable>([...lineUp.elements, ...lineUp.cables].map((each) => [each.id, each]));
  const from = run.driveId === null ? 0 : Math.max(0, run.path.indexOf(run.driveId));
  const ids = run.path.slice(from);
  return ids.flatMap((id, i) => {
    const part = parts.get(id);
    if (!part) return [];
    if (isCable(part)) {
      const cable = part;
      if (cable.kind === 'link') return [];
      const near = cable.from.element === ids[i - 1] ? 'from' : 'to';
      const ends = [near, near === 'from' ? 'to' : 'from'] as const;
      const cut = run.breaks.find((each) => each.elementId === null && each.ends.some((end) => end.cableId === id));
      const grounds = cable.grounds;
      const carrier = carrierOf(cable);
      return [
        [
          cable.tag,
          [buildText(cable), racewayText(cable)].filter(Boolean).join(', ') || 'not known',
          `${CARRIED[carrier]}; ${ends.map((end) => `${parts.get(cable[end].element ?? '')?.tag ?? 'free end'}: ${landingWords(cable, end)}`).join('; ')}`,
          !grounds.count
            ? (groundsText(cable) ?? 'not known')
            : `${[groundsText(cable), grounds.arrangement].filter(Boolean).join(' ')}; landed ${ends
                .map((end) => cable[end].groundsLanded ?? 'not known')
                .join(' and ')}`,
          cut ? STATE[cut.state] : carrier === 'none' ? 'no shield' : 'whole',
        ],
      ];
    }
    const element = part as Element;
    const cut = run.breaks.find((each) => each.elementId === id);
    return [
      [
        element.tag,
        [element.kind, 'box' in element && element.box ? `${element.box} box` : ''].filter(Boolean).join(', '),
        'bondBar' in element && element.bondBar !== undefined ? (element.bondBar ? 'bond bar joins the shields' : 'no bond bar') : '–',
        '–',
        cut ? STATE[cut.state] : run.shield === 'none' ? '–' : 'whole',
      ],
    ];
  });
}

const STATE = { broken: 'INTERRUPTED', open: 'not known' } as const;
const CARRIED = {
  shield: 'own shield or armour',
  raceway: 'the metal raceway',
  none: 'none',
  unknown: 'not known whether it has one',
} as const;
