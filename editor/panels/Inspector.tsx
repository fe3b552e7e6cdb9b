import { useEffect, useRef, useState } from 'react';
import { type Cable, type Element, FIELDS, type Field, formatQuantity, parseQuantity, type Units, valueAt } from '../../engine/index.ts';
import { edit, useEditor } from '../store/editorStore.ts';
import { setValue } from '../store/edits.ts';

/** Every value of a part. Empty is not known. What was typed is kept beside the value. */

type Part = Element | Cable;
const isCable = (part: Part): part is Cable => part.kind === 'cable' || part.kind === 'link';

export function Inspector({ part, units }: { readonly part: Part; readonly units: Units }) {
  const fields = FIELDS[isCable(part) ? 'cable' : part.kind];
  const ends = fields.filter((field) => field.path.startsWith('from.') || field.path.startsWith('to.'));
  const others = fields.filter((field) => !ends.includes(field));
  return (
    <section aria-label={`Values of ${part.tag}`}>
      <FieldRow part={part} units={units} field={{ path: 'tag', label: 'Tag', kind: 'text', help: '', ask: '' }} />
      {isCable(part) && (
        <FieldRow
          part={part}
          units={units}
          field={{
            path: 'kind',
            label: 'Kind',
            kind: 'choice',
            choices: ['cable', 'link'],
            help: 'A link is a connection inside one enclosure',
            ask: '',
          }}
        />
      )}
      {others.map((field) => (
        <FieldRow key={field.path} part={part} units={units} field={field} />
      ))}
      {ends.length > 0 && (
        <div className="ends">
          {['from', 'to'].map((end) => (
            <div key={end}>
              {ends
                .filter((field) => field.path.startsWith(`${end}.`))
                .map((field) => (
                  <FieldRow key={field.path} part={part} units={units} field={field} />
                ))}
            </div>
          ))}
        </div>
      )}
    </section>
  );
}

interface RowProps {
  readonly part: Part;
  readonly units: Units;
  readonly field: Field;
}

function FieldRow({ part, units, field }: RowProps) {
  const focusField = useEditor((state) => state.focusField);
  const box = useRef<HTMLInputElement & HTMLSelectElement>(null);
  const [bad, setBad] = useState<string | null>(null);
  const id = `${part.id}-${field.path}`.replaceAll('.', '-');
  const value = valueAt(part, field.path);
  const origin = part.provenance?.[field.path];
  useEffect(() => {
    if (focusField === field.path) box.current?.focus();
  }, [focusField, field.path]);

  const commit = (to: unknown, typed?: string) => {
    setBad(null);
    edit(`${field.label} of ${part.tag}`, (before) => setValue(before, part.id, field.path, to, typed));
  };

  let control: React.JSX.Element;
  if (field.kind === 'choice' || field.kind === 'yesno') {
    const choices = field.kind === 'yesno' ? ['yes', 'no'] : (field.choices ?? []);
    const shown = field.kind === 'yesno' ? (value === true ? 'yes' : value === false ? 'no' : '') : typeof value === 'string' ? value : '';
    control = (
      <select
        ref={box}
        id={id}
        value={shown}
        onChange={(event) =>
          commit(event.target.value === '' ? undefined : field.kind === 'yesno' ? event.target.value === 'yes' : event.target.value)
        }
      >
        {field.path !== 'kind' && <option value="">not known</option>}
        {choices.map((each) => (
          <option key={each} value={each}>
            {each.replaceAll('-', ' ')}
          </option>
        ))}
      </select>
    );
  } else {
    const shown =
      value === undefined
        ? ''
        : (origin?.typed ??
          (field.kind === 'quantity' && field.quantity && (typeof value === 'number' || typeof value === 'string')
            ? formatQuantity(value, field.quantity, units)
            : String(value)));
    const take = (text: string) => {
      if (text.trim() === shown.trim()) return setBad(null);
      if (text.trim() === '') return field.path === 'tag' ? setBad('A part needs a tag.') : commit(undefined);
      if (field.kind === 'text') return commit(text);
      if (field.kind === 'count') {
        const whole = Number(text);
        return Number.isInteger(whole) && whole >= 0 && whole <= 500
          ? commit(whole)
          : setBad(`“${text}” is not a whole number. ${shown || 'Not known'} stays in force.`);
      }
      const parsed = parseQuantity(text, field.quantity ?? 'number', units);
      if (!parsed.ok) return setBad(`${parsed.what}. ${shown ? `${shown} stays` : 'Not known stays'} in force.`);
      if (typeof parsed.value === 'number' && field.quantity !== 'temperature' && field.path !== 'tap_pct' && parsed.value < 0)
        return setBad(`It may not be below zero. ${shown || 'Not known'} stays in force.`);
      return commit(parsed.value, text.trim());
    };
    control = (
      <input
        ref={box}
        id={id}
        key={shown}
        defaultValue={shown}
        placeholder="not known"
        aria-invalid={bad !== null}
        aria-describedby={bad ? `${id}-bad` : undefined}
        onBlur={(event) => take(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take(event.currentTarget.value);
          if (event.key === 'Escape') {
            event.currentTarget.value = shown;
            setBad(null);
          }
        }}
      />
    );
  }
  return (
    <div className="field">
      <label htmlFor={id} title={field.help}>
        {field.label}
      </label>
      {control}
      {bad && (
        <span className="bad" id={`${id}-bad`}>
          {bad}
        </span>
      )}
      {origin?.origin === 'assumed' && <span className="origin">assumed</span>}
    </div>
  );
}
