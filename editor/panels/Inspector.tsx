import { type Cable, type Element, type ElementOf, FIELDS, type Field, type Units, valueAt } from '../../engine/index.ts';
import { commit } from '../store/commit.ts';
import { edit } from '../store/editorStore.ts';
import { changeCores, changeEmcLengths, setValue } from '../store/edits.ts';
import { ChoicesField } from './ChoicesField.tsx';
import { fieldGroups } from './fieldGroups.ts';
import { ValueField } from './ValueField.tsx';

/** Every value of a part, under headings. What was typed is kept beside the value. */

type Part = Element | Cable;
interface InspectorProps {
  readonly part: Part;
  readonly units: Units;
}
const isCable = (part: Part): part is Cable => part.kind === 'cable' || part.kind === 'link';

const field = (path: string, label: string, kind: Field['kind'], more: Partial<Field> = {}): Field => ({
  path,
  label,
  kind,
  help: '',
  ask: '',
  ...more,
});
const EARTHING = FIELDS.supply.find((each) => each.path === 'earthing')?.choices ?? [];
const TAG = field('tag', 'Tag', 'text');
const KIND = field('kind', 'Kind', 'choice', { choices: ['cable', 'link'], help: 'A link is a connection inside one enclosure' });

export function Inspector({ part, units, others }: InspectorProps & { readonly others: readonly Cable[] }) {
  const fields = FIELDS[isCable(part) ? 'cable' : part.kind];
  const ends = fields.filter(({ path }) => path.startsWith('from.') || path.startsWith('to.'));
  return (
    <fieldset className="values" aria-label={`Values of ${part.tag}`}>
      <section>
        <Row part={part} units={units} field={TAG} needed />
        {isCable(part) && <Row part={part} units={units} field={KIND} needed />}
      </section>
      {fieldGroups(fields.filter((each) => !ends.includes(each))).map((group) => (
        <section key={group.title}>
          <h2>{group.title}</h2>
          {group.fields.map((each) => (
            <Row key={each.path} part={part} units={units} field={each} />
          ))}
        </section>
      ))}
      {isCable(part) && (
        <>
          <section>
            <h2>Its two ends</h2>
            <div className="ends">
              {['from.', 'to.'].map((end) => (
                <div key={end}>
                  {ends
                    .filter(({ path }) => path.startsWith(end))
                    .map((each) => (
                      <Row key={each.path} part={part} units={units} field={each} />
                    ))}
                </div>
              ))}
            </div>
          </section>
          <Cores cable={part} units={units} />
          <section>
            <h2>Raceway</h2>
            <ChoicesField
              label="Lies in one raceway with"
              empty="nothing else"
              choices={others
                .filter((each) => each.id !== part.id && each.kind === 'cable')
                .map((each) => ({ value: each.id, label: each.tag }))}
              value={part.installation.sharedWith}
              take={(value) => edit('Shared raceway', (before) => setValue(before, part.id, 'installation.sharedWith', value))}
            />
          </section>
        </>
      )}
      {part.kind === 'drive' && <ManualLists drive={part} units={units} />}
    </fieldset>
  );
}

/** What a drive's manual says in lists: earthing it allows, lengths by category and carrier. */
function ManualLists({ drive, units }: { readonly drive: ElementOf<'drive'>; readonly units: Units }) {
  const rows = drive.manual?.emcLengths ?? [];
  return (
    <section>
      <h2>From the manual, lists</h2>
      <ChoicesField
        label="Earthing it allows"
        choices={EARTHING.map((value) => ({ value, label: value.replaceAll('-', ' ') }))}
        value={drive.manual?.allowedEarthing}
        take={(value) => edit('Earthing allowed', (before) => setValue(before, drive.id, 'manual.allowedEarthing', value))}
      />
      {rows.map((row, i) => {
        const n = rows.length > 1 ? ` ${i + 1}` : '';
        const fields = [
          field(`manual.emcLengths.${i}.category`, `Category${n}`, 'choice', { choices: ['C1', 'C2', 'C3', 'C4'] }),
          field(`manual.emcLengths.${i}.carrier_Hz`, `At carrier up to${n}`, 'quantity', { quantity: 'frequency' }),
          field(`manual.emcLengths.${i}.length_m`, `Length allowed${n}`, 'quantity', { quantity: 'length' }),
        ];
        return (
          // Rows have no ids: their place is what the document knows them by.
          <div key={`${i}/${row.category}`}>
            {fields.map((each) => (
              <Row key={each.path} part={drive} units={units} field={each} needed={!each.path.endsWith('carrier_Hz')} />
            ))}
            <button
              type="button"
              className="quiet"
              onClick={() => edit('Take length out', (before) => changeEmcLengths(before, drive.id, i))}
            >
              Take this length out
            </button>
          </div>
        );
      })}
      <button type="button" className="quiet" onClick={() => edit('Add length', (before) => changeEmcLengths(before, drive.id, 'add'))}>
        Add a length for a category
      </button>
    </section>
  );
}

/** Cores for other uses in the same cable or raceway, and their own screens. */
function Cores({ cable, units }: { readonly cable: Cable; readonly units: Units }) {
  return (
    <section>
      <h2>Other cores in it</h2>
      {cable.auxiliary.length === 0 && <p className="muted">None.</p>}
      {cable.auxiliary.map((group, i) => {
        const n = cable.auxiliary.length > 1 ? ` ${i + 1}` : '';
        const fields = [
          field(`auxiliary.${i}.use`, `Cores for${n}`, 'choice', { choices: ['brake', 'thermistor', 'encoder', 'control'] }),
          field(`auxiliary.${i}.screened`, `Cores have a screen${n}`, 'yesno', { ask: 'cable supplier' }),
          field(`auxiliary.${i}.screenLanded`, `Their screen is landed at${n}`, 'choice', {
            choices: ['both', 'one', 'none'],
            ask: 'installer',
          }),
          field(`auxiliary.${i}.insulation_V`, `Their insulation voltage${n}`, 'quantity', { quantity: 'voltage', ask: 'cable supplier' }),
        ];
        return (
          // Groups have no ids: their place is what the document knows them by.
          <div key={`${i}/${group.use}`}>
            {fields.map((each, at) => (
              <Row key={each.path} part={cable} units={units} field={each} needed={at === 0} />
            ))}
            <button type="button" className="quiet" onClick={() => edit('Take cores out', (before) => changeCores(before, cable.id, i))}>
              Take these cores out
            </button>
          </div>
        );
      })}
      <button type="button" className="quiet" onClick={() => edit('Add cores', (before) => changeCores(before, cable.id, 'add'))}>
        Add cores
      </button>
    </section>
  );
}

interface RowProps extends InspectorProps {
  readonly field: Field;
  readonly needed?: boolean;
}

function Row({ part, units, field, needed }: RowProps) {
  const origin = part.provenance?.[field.path];
  return (
    <ValueField
      field={field}
      value={valueAt(part, field.path)}
      typed={origin?.typed}
      origin={origin?.origin}
      units={units}
      needed={needed ?? false}
      take={(value, typed) => commit(field, (before) => setValue(before, part.id, field.path, value, typed))}
    />
  );
}
