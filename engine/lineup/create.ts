import type { Cable } from './cable.ts';
import type { Element, ElementKind, Port } from './elements.ts';
import { FORMAT, type LineUp, VERSION } from './lineUp.ts';
import type { Basis } from './project.ts';

/** New things. What is not known stays missing; only what drawing them says by itself is put in, marked as assumed: one set, new, at rest. */

export function newLineUp(basis: Basis = 'us'): LineUp {
  return {
    format: FORMAT,
    version: VERSION,
    project: { title: 'New line-up', basis, units: basis === 'us' ? 'us' : 'metric', emcCategory: 'none', limits: {}, checks: {} },
    elements: [],
    cables: [],
    positions: {},
  };
}

const TAG_LETTERS: Readonly<Record<ElementKind, string>> = {
  supply: 'S',
  transformer: 'T',
  bus: 'B',
  disconnect: 'DS',
  reactor: 'L',
  filter: 'Z',
  drive: 'VFD',
  junction: 'JB',
  contactor: 'K',
  motor: 'M',
};

/** The next free tag 'DS-3', counting over every tag in use. */
export function nextTag(lineUp: LineUp, letters: string): string {
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.tag));
  let number = 1;
  while (used.has(`${letters}-${number}`)) number++;
  return `${letters}-${number}`;
}

/** The next free id 'e12' or 'c3'. */
export function nextId(lineUp: LineUp, prefix: 'e' | 'c'): string {
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.id));
  let number = used.size + 1;
  while (used.has(`${prefix}${number}`)) number++;
  return `${prefix}${number}`;
}

export function newElement(lineUp: LineUp, kind: ElementKind): Element {
  return { id: nextId(lineUp, 'e'), tag: nextTag(lineUp, TAG_LETTERS[kind]), kind };
}

const ASSUMED = { origin: 'assumed' } as const;

export function newCable(lineUp: LineUp, from: { element: string; port: Port }, to: { element: string; port: Port }): Cable {
  return {
    id: nextId(lineUp, 'c'),
    tag: nextTag(lineUp, 'W'),
    kind: 'cable',
    from: { ...from },
    to: { ...to },
    conductor: { sets: 1 },
    insulation: {},
    grounds: {},
    auxiliary: [],
    installation: { existing: false, flexing: false },
    provenance: { 'conductor.sets': ASSUMED, 'installation.existing': ASSUMED, 'installation.flexing': ASSUMED },
  };
}
