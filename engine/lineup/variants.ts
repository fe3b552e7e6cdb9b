import { designOf } from './design.ts';
import type { Design, LineUp } from './lineUp.ts';

/** Other ways to build it, held aside in the document. Each of these makes a new document; designs that stay are the same objects. */

export type Variant = NonNullable<LineUp['variants']>[number];

export const MOST_VARIANTS = 20;

export const variantsOf = (lineUp: LineUp): readonly Variant[] => lineUp.variants ?? [];

/** The line-up itself comes back when there is no room for one more. */
export function setAside(lineUp: LineUp, name: string, design: Design = designOf(lineUp)): LineUp {
  const variants = variantsOf(lineUp);
  return variants.length >= MOST_VARIANTS ? lineUp : { ...lineUp, variants: [...variants, { id: freeId(variants), name, design }] };
}

/** A name that none of them has. */
export function freeName(lineUp: LineUp): string {
  const names = new Set(variantsOf(lineUp).map((each) => each.name));
  for (let n = 1; ; n++) if (!names.has(`Variant ${n}`)) return `Variant ${n}`;
}

function freeId(variants: readonly Variant[]): string {
  const ids = new Set(variants.map((each) => each.id));
  for (let n = 1; ; n++) if (!ids.has(`v${n}`)) return `v${n}`;
}

/** The variant is drawn and judged from now on, and what was present is set aside in its place. */
export function swapVariant(lineUp: LineUp, id: string): LineUp {
  const variants = variantsOf(lineUp);
  const taken = variants.find((each) => each.id === id);
  if (!taken) return lineUp;
  const { labels: _labels, notes: _notes, ...kept } = lineUp;
  const { project, elements, cables, positions, ...others } = taken.design;
  return {
    // What the document itself names stays with it, whatever a design brings along.
    ...others,
    ...kept,
    project: issuedAs(lineUp.project, project),
    elements,
    cables,
    positions,
    variants: variants.map((each) => (each === taken ? { ...each, name: swappedName(each.name), design: designOf(lineUp) } : each)),
  };
}

/** Under which revision it goes out is a matter of the document, whichever design is present. */
function issuedAs(present: Design['project'], taken: Design['project']): Design['project'] {
  const { revision: _revision, date: _date, status: _status, ...rest } = taken;
  const { revision, date, status } = present;
  return {
    ...rest,
    ...(revision !== undefined && { revision }),
    ...(date !== undefined && { date }),
    ...(status !== undefined && { status }),
  };
}

/** Nobody named what was present; it is called after what it made room for, and to swap again gives the first name back. */
const swappedName = (name: string): string => /^Before “(.+)”$/.exec(name)?.[1] ?? `Before “${name}”`;

export const renameVariant = (lineUp: LineUp, id: string, name: string): LineUp => ({
  ...lineUp,
  variants: variantsOf(lineUp).map((each) => (each.id === id ? { ...each, name } : each)),
});

export function deleteVariant(lineUp: LineUp, id: string): LineUp {
  const { variants = [], ...rest } = lineUp;
  const left = variants.filter((each) => each.id !== id);
  return left.length > 0 ? { ...lineUp, variants: left } : (rest as LineUp);
}
