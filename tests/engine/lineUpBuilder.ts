import { type Cable, type Element, type LineUp, newLineUp } from '../../engine/index.ts';

/** A vocabulary for small line-ups in tests and examples: parts one after another, each joined to the last by a cable or a link. */

export type Part<K extends Element['kind'] = Element['kind']> = Omit<Extract<Element, { kind: K }>, 'id' | 'kind' | 'tag'> & {
  readonly tag?: string;
};
interface CableValues {
  readonly tag?: string;
  readonly conductor?: Cable['conductor'];
  readonly insulation?: Cable['insulation'];
  readonly construction?: NonNullable<Cable['construction']>;
  readonly grounds?: Cable['grounds'];
  readonly auxiliary?: Cable['auxiliary'];
  readonly length_m?: number;
  readonly lengthMost_m?: number;
  readonly provenance?: NonNullable<Cable['provenance']>;
  readonly installation?: Cable['installation'];
  readonly from?: Partial<Cable['from']>;
  readonly to?: Partial<Cable['to']>;
}

export class LineUpBuilder {
  #lineUp: LineUp;
  #here: string | null = null;
  #waiting: { kind: 'cable' | 'link'; values: CableValues } | null = null;

  constructor(project: Partial<LineUp['project']> = {}) {
    const empty = newLineUp(project.basis ?? 'us');
    this.#lineUp = { ...empty, project: { ...empty.project, ...project } };
  }

  part<K extends Element['kind']>(kind: K, values: Part<K>): this {
    const id = `e${this.#lineUp.elements.length + 1}`;
    const element = { tag: id, ...values, id, kind } as unknown as Element;
    this.#lineUp = { ...this.#lineUp, elements: [...this.#lineUp.elements, element] };
    if (this.#here !== null) this.#join(this.#here, id);
    this.#here = id;
    return this;
  }

  cable(values: CableValues): this {
    this.#waiting = { kind: 'cable', values };
    return this;
  }

  /** Goes back to a part by its tag, to branch from there. */
  from(tag: string): this {
    this.#here = this.#lineUp.elements.find((element) => element.tag === tag)?.id ?? null;
    return this;
  }

  build(): LineUp {
    return this.#lineUp;
  }

  #join(from: string, to: string): void {
    const { kind, values } = this.#waiting ?? { kind: 'link' as const, values: {} };
    this.#waiting = null;
    const id = `c${this.#lineUp.cables.length + 1}`;
    const cable: Cable = {
      conductor: {},
      insulation: {},
      grounds: {},
      auxiliary: [],
      installation: {},
      tag: id,
      ...values,
      id,
      kind,
      from: { element: from, port: 'load', ...values.from },
      to: { element: to, port: 'line', ...values.to },
    };
    this.#lineUp = { ...this.#lineUp, cables: [...this.#lineUp.cables, cable] };
  }
}

const FOOT_M = 0.3048;
export const feet = (length: number): number => Number((length * FOOT_M).toPrecision(12));
const HP_W = 745.6998715822702;
export const horsepower = (power: number): number => Number((power * HP_W).toPrecision(12));

export const shielded = (size: string, length_ft: number, more: CableValues = {}): CableValues => ({
  conductor: { size, metal: 'copper', sets: 1 },
  insulation: { type: 'XHHW-2', concentricity_pct: 90 },
  construction: 'foil-and-braid',
  grounds: { count: 3, size: '8 AWG', arrangement: 'symmetrical' },
  length_m: feet(length_ft),
  provenance: { length_m: { typed: `${length_ft} ft` } },
  ...more,
  installation: { raceway: 'tray', ambient_C: 30, loadedConductors: 3, moisture: 'damp', ...more.installation },
  from: { landing: 'full', ...more.from },
  to: { landing: 'full', ...more.to },
});

export const inSteel = (size: string, length_ft: number, more: CableValues = {}): CableValues => ({
  conductor: { size, metal: 'copper', sets: 1, ...more.conductor },
  insulation: { type: 'XHHW-2', concentricity_pct: 90, ...more.insulation },
  construction: 'singles',
  grounds: { count: 1, size: '8 AWG', arrangement: 'single' },
  length_m: feet(length_ft),
  provenance: { length_m: { typed: `${length_ft} ft` } },
  ...(more.tag === undefined ? {} : { tag: more.tag }),
  installation: { raceway: 'steel-conduit', ambient_C: 30, loadedConductors: 3, moisture: 'dry', ...more.installation },
  from: { landing: 'full', ...more.from },
  to: { landing: 'full', ...more.to },
});
