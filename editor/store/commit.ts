import { type Field, isMeant, type LineUp, limitText, lineUpSchema } from '../../engine/index.ts';
import { edit, useEditor } from './editorStore.ts';

/** Takes a typed value into the document, unless the document could then not be opened again: then says why and changes nothing. */
export function commit(field: Field, change: (lineUp: LineUp) => LineUp): string | null {
  const { lineUp } = useEditor.getState();
  if (!lineUp) return null;
  const next = change(lineUp);
  const why = objection(field, next, lineUp);
  if (why === null) edit(field.label, () => next);
  return why;
}

/**
 * Why a document with this value in the field could not be opened again, or null when it could.
 * @param before the open document: what of it is still there is not asked again
 */
export function objection(field: Field, next: LineUp, before: LineUp): string | null {
  const held = new Set<unknown>([...before.elements, ...before.cables]);
  const { format, version, project, elements, cables } = next;
  const fresh = (each: unknown): boolean => !held.has(each);
  const checked = lineUpSchema.safeParse({
    ...{ format, version, project, positions: {} },
    elements: elements.filter(fresh),
    cables: cables.filter(fresh),
  });
  if (checked.success) return null;
  const [issue] = checked.error.issues;
  const show = (value: number | bigint) =>
    field.kind === 'quantity' && field.quantity ? limitText(Number(value), field.quantity, next.project.units) : `${value}`;
  const limit = issue?.code === 'too_small' ? issue.minimum : issue?.code === 'too_big' ? issue.maximum : 0;
  if (!isMeant(limit)) return 'It is too large to be meant: is the unit right?';
  if (issue?.code === 'too_small' && issue.origin !== 'string')
    return `It must be ${issue.inclusive ? 'at least' : 'above'} ${show(limit)}`;
  if (issue?.code === 'too_big' && issue.origin !== 'string') return `It must be ${issue.inclusive ? 'at most' : 'below'} ${show(limit)}`;
  if (issue?.code === 'too_small') return 'It may not be empty';
  if (issue?.code === 'too_big') return 'It is too long';
  return 'This value has no meaning here';
}
