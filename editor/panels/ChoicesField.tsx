/** Several of a list. Nothing said is not known; where an empty list has a meaning of its own, it can be said too. */

export interface ChoicesFieldProps {
  readonly label: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  readonly value: readonly string[] | undefined;
  /** What an empty list says, such as 'it lies alone'. */
  readonly empty?: string;
  readonly take: (value: readonly string[] | undefined) => void;
}

export function ChoicesField({ label, choices, value, empty, take }: ChoicesFieldProps) {
  const chosen = new Set(value);
  const change = (each: string, on: boolean) => {
    const next = choices.map((choice) => choice.value).filter((one) => (one === each ? on : chosen.has(one)));
    take(next.length > 0 ? next : undefined);
  };
  return (
    <fieldset className="choices">
      <legend>
        {label} {value === undefined && <span className="muted">not known</span>}
      </legend>
      {empty !== undefined && (
        <label>
          <input type="checkbox" checked={value?.length === 0} onChange={({ target }) => take(target.checked ? [] : undefined)} /> {empty}
        </label>
      )}
      {choices.map((each) => (
        <label key={each.value}>
          <input type="checkbox" checked={chosen.has(each.value)} onChange={({ target }) => change(each.value, target.checked)} />{' '}
          {each.label}
        </label>
      ))}
    </fieldset>
  );
}
