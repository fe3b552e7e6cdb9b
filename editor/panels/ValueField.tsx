import { useEffect, useId, useRef, useState } from 'react';
import { asTyped, choiceText, type Field, limitText, type Range, type Units, unitNames } from '../../engine/index.ts';
import { useEditor } from '../store/editorStore.ts';
import { useSay } from '../store/useSay.ts';
import { readEntry } from './readEntry.ts';

/** One value. Empty is not known. A bad entry stays to be mended, and the old value stays in force. */

export interface ValueFieldProps {
  readonly field: Field;
  readonly value: unknown;
  /** As it was typed, in the units of the one who typed it. */
  readonly typed?: string | undefined;
  readonly origin?: string | undefined;
  readonly units: Units;
  /** What an empty field says; 'not known' unless something else is meant. */
  readonly unset?: string;
  readonly range?: Range;
  /** What it usually is, where this is far from it. */
  readonly usual?: string | null;
  /** Entries to choose from; any other may be typed. */
  readonly offers?: readonly string[];
  /** It cannot be left empty. */
  readonly needed?: boolean;
  /** Answers why a value was not taken, or null. */
  readonly take: (value: unknown, typed?: string) => string | null;
}

export function ValueField(props: ValueFieldProps) {
  const { field, origin, usual } = props;
  const id = useId();
  const [bad, setBad] = useState<string | null>(null);
  const focusHere = useEditor((state) => state.focusField === field.path);
  const row = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!focusHere) return;
    const control = row.current?.querySelector<HTMLElement>('input, select');
    control?.focus();
    control?.scrollIntoView({ block: 'center' });
  }, [focusHere]);
  const say = useSay();
  const hint = say(hintOf(props));
  const listed = field.kind === 'choice' || field.kind === 'yesno';
  return (
    <div className="field" ref={row}>
      <label htmlFor={id} title={hint}>
        {say(field.label)}
      </label>
      {listed ? (
        <Choice {...props} id={id} hint={hint} bad={bad} setBad={setBad} />
      ) : (
        <Entry {...props} id={id} hint={hint} bad={bad} setBad={setBad} />
      )}
      {bad && (
        <span className="bad" role="alert" id={`${id}-bad`}>
          {bad}
        </span>
      )}
      {hint !== '' && (
        <span className="help" id={`${id}-help`}>
          {hint}
        </span>
      )}
      {origin === 'assumed' && <span className="origin">assumed</span>}
      {usual && (
        <span className="origin" role="status">
          {usual}
        </span>
      )}
    </div>
  );
}

/** In which unit, between which numbers, what it means, and who knows. */
function hintOf({ field, units, range }: ValueFieldProps): string {
  const { kind, quantity, help, ask } = field;
  const show = (value: number) => (quantity ? limitText(value, quantity, units) : `${value}`);
  const [first, ...others] = kind === 'quantity' && quantity ? unitNames(quantity, units) : [];
  return [
    first && (others.length > 0 ? `In ${first}; also ${others.join(', ')}` : `In ${first}`),
    kind === 'count' && 'A whole number',
    range?.least && `${range.least.itself ? 'At least' : 'Above'} ${show(range.least.value)}`,
    range?.most && `${range.most.itself ? 'At most' : 'Below'} ${show(range.most.value)}`,
    help,
    ask && `Ask: ${ask}`,
  ]
    .filter(Boolean)
    .join('. ');
}

interface ControlProps extends ValueFieldProps {
  readonly id: string;
  readonly hint: string;
  readonly bad: string | null;
  readonly setBad: (bad: string | null) => void;
}

function Choice({ field, value, needed, unset, take, id, hint, bad, setBad }: ControlProps) {
  const say = useSay();
  const choices = field.kind === 'yesno' ? ['yes', 'no'] : (field.choices ?? []);
  const shown = field.kind === 'yesno' ? (value === true ? 'yes' : value === false ? 'no' : '') : typeof value === 'string' ? value : '';
  return (
    <select
      id={id}
      value={shown}
      aria-describedby={bad ? `${id}-bad` : hint === '' ? undefined : `${id}-help`}
      onChange={({ target }) =>
        setBad(take(target.value === '' ? undefined : field.kind === 'yesno' ? target.value === 'yes' : target.value))
      }
    >
      {!needed && <option value="">{unset ?? 'not known'}</option>}
      {/* A file may hold a value this list does not know. */}
      {(shown === '' || choices.includes(shown) ? choices : [...choices, shown]).map((each) => (
        <option key={each} value={each}>
          {choices.includes(each) ? say(choiceText(each)) : choiceText(each)}
        </option>
      ))}
    </select>
  );
}

function Entry({ field, value, typed, units, needed, unset, offers = [], take, id, hint, bad, setBad }: ControlProps) {
  const [draft, setDraft] = useState<string | null>(null);
  const known = value !== undefined;
  const shown = !known
    ? ''
    : field.kind === 'quantity' && field.quantity && (typeof value === 'number' || typeof value === 'string')
      ? asTyped(typed, value, field.quantity, units)
      : (typed ?? String(value));
  const read = (text: string): string | null => {
    if (text === '' && needed) return 'It may not be empty';
    const entry = readEntry(field, text, units);
    return entry.ok ? take(entry.value, entry.typed) : entry.what;
  };
  const commit = (entry = draft) => {
    if (entry === null) return;
    const text = entry.trim();
    const why = text === shown.trim() ? null : read(text);
    setBad(why === null ? null : `${why}. ${known ? `${shown} stays` : 'Not known stays'} in force.`);
    if (why === null) setDraft(null);
  };
  const entry = (
    <input
      id={id}
      value={draft ?? shown}
      list={offers.length > 0 ? `${id}-offers` : undefined}
      data-clean={draft === null}
      placeholder={needed ? undefined : (unset ?? 'not known')}
      autoComplete="off"
      spellCheck={false}
      aria-invalid={bad !== null}
      aria-describedby={bad ? `${id}-bad` : hint === '' ? undefined : `${id}-help`}
      onChange={({ target, nativeEvent }) => {
        setDraft(target.value);
        // Chosen from the list, not typed.
        if ([undefined, 'insertReplacementText'].includes((nativeEvent as InputEvent).inputType)) commit(target.value);
      }}
      onBlur={() => commit()}
      onKeyDown={(event) => {
        if (event.key === 'Enter') commit();
        if (event.key === 'Escape') {
          setDraft(null);
          setBad(null);
        }
      }}
    />
  );
  if (offers.length === 0) return entry;
  return (
    <>
      {entry}
      <datalist id={`${id}-offers`}>
        {offers.map((each) => (
          <option key={each} value={each} />
        ))}
      </datalist>
    </>
  );
}
