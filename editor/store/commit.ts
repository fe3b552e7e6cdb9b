import { type Field, formatQuantity, type LineUp, lineUpSchema } from '../../engine/index.ts';
import { edit, useEditor } from './editorStore.ts';

/** Takes a typed value into the document, unless the document could then not be opened again: then says why and changes nothing. */
export function commit(field: Field, change: (lineUp: LineUp) => LineUp): string | null {
  const { lineUp } = useEditor.getState();
  if (!lineUp) return null;
  const next = change(lineUp);
  const why = objection(field, next);
  if (why === null) edit(field.label, () => next);
  return why;
}

/** Why a document with this value in the field could not be opened again, or null when it could. */
export function objection(field: Field, next: LineUp): string | null {
  const checked = lineUpSchema.safeParse(next);
  if (checked.success) return null;
  const [issue] = checked.error.issues;
  const show = (value: number | bigint) =>
    field.kind === 'quantity' && field.quantity ? formatQuantity(Number(value), field.quantity, next.project.units) : `${value}`;
  if (issue?.code === 'too_small' && issue.origin !== 'string')
    return `It must be ${issue.inclusive ? 'at least' : 'above'} ${show(issue.minimum)}`;
  if (issue?.code === 'too_big' && issue.origin !== 'string')
    return `It must be ${issue.inclusive ? 'at most' : 'below'} ${show(issue.maximum)}`;
  if (issue?.code === 'too_small') return 'It may not be empty';
  if (issue?.code === 'too_big') return 'It is too long';
  return 'This value has no meaning here';
}
