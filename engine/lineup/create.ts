import type { Cable } from './cable.ts';
import { freeTags } from './designation.ts';
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

/** The next free id 'e12' or 'c3'. */
export function nextId(lineUp: LineUp, prefix: 'e' | 'c'): string {
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.id));
  let number = used.size + 1;
  while (used.has(`${prefix}${number}`)) number++;
  return `${prefix}${number}`;
}

export function newElement(lineUp: LineUp, kind: ElementKind): Element {
  return { id: nextId(lineUp, 'e'), tag: freeTags(lineUp)(kind), kind };
}

const ASSUMED = { origin: 'assumed' } as const;

export function newCable(lineUp: LineUp, from: { element: string; port: Port }, to: { element: string; port: Port }): Cable {
  return {
    id: nextId(lineUp, 'c'),
    tag: freeTags(lineUp)('cable'),
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
