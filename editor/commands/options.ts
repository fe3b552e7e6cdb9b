import {
  type Cable,
  ELEMENT_KINDS,
  type Element,
  type ElementKind,
  illegal,
  type LineUp,
  PORTS,
  type PortAt,
  routeCable,
} from '../../engine/index.ts';
import { portFor } from '../sheet/ports.ts';
import { familyOf } from '../sheet/scale.ts';
import { view } from '../sheet/view.ts';
import { more } from '../store/copies.ts';
import type { Ask } from '../store/deskStore.ts';
import { edit, select } from '../store/editorStore.ts';
import { branchOff, connect, insertInto, place, placeAfter, reconnect } from '../store/edits.ts';
import { sayNow } from '../store/useSay.ts';
import { chosenCables, chosenElements, type Scene } from './command.ts';
import { COMMANDS, canRun, perform, scene } from './commands.ts';
import { partsOf, portsToUse } from './related.ts';

/** What may be chosen when something is asked for: legal choices first, the others with the reason. */

export interface Option {
  readonly id: string;
  readonly label: string;
  readonly hint?: string;
  readonly key?: string | undefined;
  /** Why it may not be chosen. */
  readonly why?: string;
  readonly run: () => void;
}

export function optionsFor(asking: Ask, now: Scene, typed: string, loose: PortAt | null): readonly Option[] {
  switch (asking) {
    case 'anything':
      return matching(typed, [...commandOptions(now), ...partOptions(now)]);
    case 'part':
      return matching(typed, partOptions(now));
    case 'add':
      return matching(typed, addOptions(now, loose));
    case 'insert':
      return matching(typed, insertOptions(now));
    case 'connect':
      return matching(typed, connectOptions(now));
    case 'start':
    case 'end':
      return matching(typed, landOptions(now, asking === 'start' ? 'from' : 'to'));
    case 'more':
      return moreOptions(now, typed);
  }
}

/** Every word that was typed stands somewhere in it; what begins with it comes first, what may not be chosen last. */
function matching(typed: string, options: readonly Option[]): readonly Option[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const rank = ({ label, why }: Option) => (why ? 2 : 0) + (label.toLowerCase().startsWith(typed.toLowerCase().trim()) ? 0 : 1);
  return options
    .filter(({ label, hint }) => words.every((word) => `${label} ${hint ?? ''}`.toLowerCase().includes(word)))
    .map((option, index) => ({ option, index }))
    .sort((a, b) => rank(a.option) - rank(b.option) || a.index - b.index)
    .map(({ option }) => option);
}

const commandOptions = (now: Scene): readonly Option[] =>
  COMMANDS.filter((command) => command.id !== 'palette' && canRun(command, now)).map((command) => ({
    id: command.id,
    label: sayNow()(command.label),
    hint: command.group,
    key: command.keys[0],
    run: () => perform(command, scene()),
  }));

const partOptions = ({ lineUp }: Scene): readonly Option[] =>
  partsOf(lineUp).map((part) => ({
    id: `part/${part.id}`,
    label: part.tag,
    hint: [sayNow()(part.kind), 'enclosure' in part ? part.enclosure : undefined, part.note].filter(Boolean).join(' · '),
    run: () => {
      select([part.id]);
      view()?.focus(part.id);
    },
  }));

/** How far below or above its neighbour a part is set. */
const PITCH_mm = 45;

function addOptions({ lineUp, selected }: Scene, loose: PortAt | null): readonly Option[] {
  const from = loose ?? followed(lineUp, selected);
  const kinds = ELEMENT_KINDS.map((kind): Option => {
    const make = () => (loose ? placeAt(lineUp, kind, loose) : placeAfter(lineUp, kind, selected[0]));
    const why = from ? unfit(lineUp, kind, from) : null;
    return {
      id: kind,
      label: sayNow()(kind),
      ...(why && { why }),
      run: () => {
        const made = make();
        edit(`Place ${kind}`, () => made.lineUp, { select: [made.id] });
      },
    };
  });
  return kinds;
}

/** The port that a new part would follow: of the chosen part, if it has one that leads on. */
function followed(lineUp: LineUp, selected: readonly string[]): PortAt | null {
  const element = lineUp.elements.find((each) => each.id === selected[0]);
  return element && PORTS[element.kind].includes('load') ? { element: element.id, port: 'load' } : null;
}

function unfit(lineUp: LineUp, kind: ElementKind, from: PortAt): string | null {
  const port = from.port === 'load' ? 'line' : 'load';
  if (!PORTS[kind].includes(port)) return port === 'line' ? 'Nothing leads to it: it is a source.' : 'Nothing follows it.';
  const placed = place(lineUp, kind, { x_mm: 0, y_mm: 0 });
  return illegal(placed.lineUp, from, { element: placed.id, port });
}

function placeAt(lineUp: LineUp, kind: ElementKind, from: PortAt): { readonly lineUp: LineUp; readonly id: string } {
  const near = lineUp.positions[from.element] ?? { x_mm: 0, y_mm: 0 };
  const at = view()?.pointer() ?? { x_mm: near.x_mm, y_mm: near.y_mm + (from.port === 'load' ? PITCH_mm : -PITCH_mm) };
  const placed = place(lineUp, kind, at);
  return {
    id: placed.id,
    lineUp: connect(placed.lineUp, from, { element: placed.id, port: from.port === 'load' ? 'line' : 'load' }).lineUp,
  };
}

function insertOptions(now: Scene): readonly Option[] {
  const [cable] = chosenCables(now);
  if (!cable) return [];
  const points = routeCable(now.lineUp, now.lineUp.positions, cable, familyOf(now.lineUp));
  const [a, b] = [points[0] ?? [0, 0], points.at(-1) ?? [0, 0]];
  const middle = { x_mm: a[0], y_mm: (a[1] + b[1]) / 2 - 6 };
  return ELEMENT_KINDS.filter((kind) => PORTS[kind].includes('line')).map((kind) => ({
    id: kind,
    label: sayNow()(kind),
    ...(PORTS[kind].length === 1 && { hint: sayNow()('by a junction') }),
    run: () => {
      const made = insertInto(now.lineUp, cable.id, kind, middle) ?? branchOff(now.lineUp, cable.id, kind, middle);
      if (made) edit(`Insert ${kind}`, () => made.lineUp, { select: [made.id] });
    },
  }));
}

function connectOptions(now: Scene): readonly Option[] {
  const [from] = chosenElements(now);
  if (!from) return [];
  return targets(now.lineUp, from.id, (port) => best(now.lineUp, from, port)).map(({ target, why, ports }) => ({
    id: target.id,
    label: target.tag,
    hint: sayNow()(target.kind),
    ...(why && { why }),
    run: () => {
      if (!ports) return;
      const made = connect(now.lineUp, ports[0], ports[1]);
      edit('Connect', () => made.lineUp, { select: [made.id] });
    },
  }));
}

/** The pair of ports by which two parts are joined most naturally. */
function best(lineUp: LineUp, from: Element, target: Element): readonly [PortAt, PortAt] | null {
  for (const port of [...portsToUse(lineUp, from)].reverse()) {
    const own = { element: from.id, port };
    const other = portFor(lineUp, own, target.id);
    if (other && illegal(lineUp, own, other) === null && other.port !== port) return [own, other];
  }
  const own = { element: from.id, port: portsToUse(lineUp, from).at(-1) ?? 'load' };
  const other = portFor(lineUp, own, target.id);
  return other ? [own, other] : null;
}

interface Target {
  readonly target: Element;
  readonly ports: readonly [PortAt, PortAt] | null;
  readonly why: string | null;
}

function targets(lineUp: LineUp, not: string, join: (target: Element) => readonly [PortAt, PortAt] | null): readonly Target[] {
  return lineUp.elements
    .filter((target) => target.id !== not)
    .map((target) => {
      const ports = join(target);
      return { target, ports, why: ports ? illegal(lineUp, ports[0], ports[1]) : 'It has no port for this.' };
    });
}

function landOptions(now: Scene, end: 'from' | 'to'): readonly Option[] {
  const [cable] = chosenCables(now);
  if (!cable) return [];
  const fixed = keptEnd(cable, end);
  return targets(now.lineUp, fixed?.element ?? '', (target) => {
    const from = fixed ?? { element: '', port: end === 'to' ? ('load' as const) : ('line' as const) };
    const port = portFor(now.lineUp, from, target.id);
    return port && [from, port];
  }).map(({ target, why, ports }) => ({
    id: target.id,
    label: target.tag,
    hint: sayNow()(target.kind),
    ...(why && fixed && { why }),
    run: () => ports && edit('Land elsewhere', (before) => reconnect(before, cable.id, end, ports[1])),
  }));
}

function keptEnd(cable: Cable, moved: 'from' | 'to'): PortAt | null {
  const { element, port } = moved === 'from' ? cable.to : cable.from;
  return element ? { element, port: port ?? (moved === 'from' ? 'line' : 'load') } : null;
}

const MOST_COPIES = 200;

function moreOptions({ lineUp, selected }: Scene, typed: string): readonly Option[] {
  const count = Number(typed.trim());
  if (!Number.isInteger(count) || count < 1) return [];
  const tags = partsOf(lineUp).flatMap((part) => (selected.includes(part.id) ? [part.tag] : []));
  return [
    {
      id: 'more',
      label: `${count} more like this`,
      hint: tags.slice(0, 6).join(', '),
      ...(count > MOST_COPIES && { why: `At most ${MOST_COPIES} at once.` }),
      run: () => {
        const put = more(lineUp, selected, count);
        if (put) edit(`${count} more`, () => put.lineUp, { select: put.ids });
      },
    },
  ];
}
