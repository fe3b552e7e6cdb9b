import {
  besideIn,
  type Cable,
  describedAs,
  type Element,
  type ElementOf,
  FIELDS,
  type Field,
  isCable,
  rangeOf,
  type Units,
  usualOf,
  valueAt,
} from '../../engine/index.ts';
import { commit } from '../store/commit.ts';
import { edit } from '../store/editorStore.ts';
import { addRow, type RowList, setValue, takeRow } from '../store/edits.ts';
import { lieBeside } from '../store/lieBeside.ts';
import { useSay } from '../store/useSay.ts';
import { ChoicesField } from './ChoicesField.tsx';
import { Folded } from './Folded.tsx';
import { fieldGroups } from './fieldGroups.ts';
import { offersOf } from './offers.ts';
import { ValueField } from './ValueField.tsx';

/** Every value of a part, under headings, or what several parts have in common. What was typed is kept beside the value. */

type Part = Element | Cable;
/** The first of them says which headings there are. */
export type Several = readonly [Part, ...Part[]];

const field = (path: string, label: string, kind: Field['kind'], more: Partial<Field> = {}): Field => ({
  path,
  label,
  kind,
  help: '',
  ask: '',
  ...more,
});
const EARTHING = FIELDS.supply.find((each) => each.path === 'earthing')?.choices ?? [];
const TAG = field('tag', 'Tag', 'text', { help: 'As it stands on the drawing and in every schedule' });
const KIND = field('kind', 'Kind', 'choice', { choices: ['cable', 'link'], help: 'A link is a connection inside one enclosure' });

export interface InspectorOfProps {
  readonly parts: Several;
  readonly units: Units;
  readonly others: readonly Cable[];
}

export default function Inspector({ parts, units, others }: InspectorOfProps) {
  const say = useSay();
  const [part] = parts;
  const alone = parts.length === 1;
  const fields = commonFields(parts);
  const ends = fields.filter(({ path }) => path.startsWith('from.') || path.startsWith('to.'));
  const built = fields.filter(({ path }) => path.startsWith('asBuilt.'));
  const beside = besideIn(others, part).map(({ id }) => id);
  return (
    <fieldset className="values" aria-label={`Values of ${parts.map((each) => each.tag).join(', ')}`}>
      {alone && (
        <section>
          <Row parts={parts} units={units} field={TAG} needed />
          {isCable(part) && <Row parts={parts} units={units} field={KIND} needed />}
        </section>
      )}
      {fieldGroups(fields.filter((each) => !ends.includes(each) && !built.includes(each))).map((group) => (
        <section key={group.title}>
          <h2>{say(group.title)}</h2>
          {group.fields.map((each) => (
            <Row key={each.path} parts={parts} units={units} field={each} />
          ))}
        </section>
      ))}
      {ends.length > 0 && (
        <section>
          <h2>{alone ? 'Its two ends' : 'Their two ends'}</h2>
          <div className="ends">
            {['from.', 'to.'].map((end) => (
              <div key={end}>
                {ends
                  .filter(({ path }) => path.startsWith(end))
                  .map((each) => (
                    <Row key={each.path} parts={parts} units={units} field={each} />
                  ))}
              </div>
            ))}
          </div>
        </section>
      )}
      {alone && isCable(part) && (
        <>
          <Cores cable={part} units={units} />
          <section>
            <h2>{say('Raceway')}</h2>
            <ChoicesField
              label={say('Lies in one raceway with')}
              empty="nothing else"
              choices={others
                .filter((each) => each.id !== part.id && each.kind === 'cable')
                .map((each) => ({ value: each.id, label: each.tag }))}
              value={beside.length > 0 ? beside : part.installation.sharedWith}
              take={(value) => edit('Shared raceway', (before) => lieBeside(before, part.id, value))}
            />
          </section>
        </>
      )}
      {alone && part.kind !== 'link' && built.length > 0 && (
        <Folded summary="As built">
          {() => built.map((each) => <Row key={each.path} parts={parts} units={units} field={each} unset="not recorded" />)}
        </Folded>
      )}
      {alone && part.kind === 'drive' && <ManualLists drive={part} units={units} />}
      {alone && part.kind === 'motor' && <PeakCurve motor={part} units={units} />}
    </fieldset>
  );
}

/** What a drive's manual says in lists: grounding it allows, lengths by category and carrier. */
function ManualLists({ drive, units }: { readonly drive: ElementOf<'drive'>; readonly units: Units }) {
  const say = useSay();
  return (
    <section>
      <h2>From the manual, lists</h2>
      <ChoicesField
        label={say('Grounding it allows')}
        choices={EARTHING.map((value) => ({ value, label: say(value.replaceAll('-', ' ')) }))}
        value={drive.manual?.allowedEarthing}
        take={(value) => edit('Grounding allowed', (before) => setValue(before, drive.id, 'manual.allowedEarthing', value))}
      />
      <Rows
        part={drive}
        units={units}
        list="manual.emcLengths"
        rows={drive.manual?.emcLengths ?? []}
        one="length"
        more="Add a length for a category"
        fields={(at, n) => [
          field(`${at}.category`, `Category${n}`, 'choice', { choices: ['C1', 'C2', 'C3', 'C4'] }),
          field(`${at}.carrier_Hz`, `At carrier up to${n}`, 'quantity', { quantity: 'frequency' }),
          field(`${at}.length_m`, `Length allowed${n}`, 'quantity', { quantity: 'length' }),
        ]}
        needed={(path) => !path.endsWith('carrier_Hz')}
      />
    </section>
  );
}

/** Peak that a winding stands at a rise time, as its maker or an edition of the standard gives it. */
function PeakCurve({ motor, units }: { readonly motor: ElementOf<'motor'>; readonly units: Units }) {
  return (
    <section>
      <h2>Curve of peak and rise time</h2>
      <Rows
        part={motor}
        units={units}
        list="peakCurve"
        rows={motor.peakCurve ?? []}
        one="point"
        more="Add a point"
        fields={(at, n) => [
          field(`${at}.rise_s`, `Rise time${n}`, 'quantity', { quantity: 'time', ask: 'motor supplier' }),
          field(`${at}.peak_V`, `Peak allowed${n}`, 'quantity', { quantity: 'voltage', ask: 'motor supplier' }),
        ]}
        needed={() => true}
      />
    </section>
  );
}

/** Cores for other uses in the same cable or raceway, and their own screens. */
function Cores({ cable, units }: { readonly cable: Cable; readonly units: Units }) {
  return (
    <section>
      <h2>Other cores in it</h2>
      {cable.auxiliary.length === 0 && <p className="muted">None.</p>}
      <Rows
        part={cable}
        units={units}
        list="auxiliary"
        rows={cable.auxiliary}
        one="group of cores"
        more="Add cores"
        fields={(at, n) => [
          field(`${at}.use`, `Cores for${n}`, 'choice', { choices: ['brake', 'thermistor', 'encoder', 'control'] }),
          field(`${at}.screened`, `Cores have a shield${n}`, 'yesno', { ask: 'cable supplier' }),
          field(`${at}.screenLanded`, `Their shield is landed at${n}`, 'choice', { choices: ['both', 'one', 'none'], ask: 'installer' }),
          field(`${at}.insulation_V`, `Their insulation voltage${n}`, 'quantity', { quantity: 'voltage', ask: 'cable supplier' }),
        ]}
        needed={(path) => path.endsWith('.use')}
      />
    </section>
  );
}

interface RowsProps {
  readonly part: Part;
  readonly units: Units;
  readonly list: RowList;
  readonly rows: readonly object[];
  /** What a row is called, and what adds one. */
  readonly one: string;
  readonly more: string;
  /** @param n ' 2' where there are several */
  readonly fields: (at: string, n: string) => readonly Field[];
  readonly needed: (path: string) => boolean;
}

/** A list inside a part, a few fields a row. */
function Rows({ part, units, list, rows, one, more, fields, needed }: RowsProps) {
  return (
    <>
      {rows.map((_, i) => (
        // Rows have no ids; their place is what the document knows them by.
        <div key={i}>
          {fields(`${list}.${i}`, rows.length > 1 ? ` ${i + 1}` : '').map((each) => (
            <Row key={each.path} parts={[part]} units={units} field={each} needed={needed(each.path)} />
          ))}
          <button type="button" className="quiet" onClick={() => edit(`Take ${one} out`, (before) => takeRow(before, part.id, list, i))}>
            Take this {one} out
          </button>
        </div>
      ))}
      <button type="button" className="quiet" onClick={() => edit(`Add ${one}`, (before) => addRow(before, part.id, list))}>
        {more}
      </button>
    </>
  );
}

/** Fields that all of them have. */
function commonFields([part, ...others]: Several): readonly Field[] {
  return FIELDS[describedAs(part)].filter(({ path, kind }) =>
    others.every((other) => FIELDS[describedAs(other)].some((each) => each.path === path && each.kind === kind)),
  );
}

interface RowProps {
  readonly parts: Several;
  readonly units: Units;
  readonly field: Field;
  readonly needed?: boolean;
  readonly unset?: string;
}

function Row({ parts, units, field, needed, unset }: RowProps) {
  const [part] = parts;
  const value = valueAt(part, field.path);
  const origin = part.provenance?.[field.path];
  const mixed = parts.some((each) => valueAt(each, field.path) !== value);
  return (
    <ValueField
      field={field}
      value={mixed ? undefined : value}
      typed={mixed ? undefined : origin?.typed}
      origin={mixed ? undefined : origin?.origin}
      {...(mixed ? { unset: 'mixed' } : unset !== undefined && { unset })}
      units={units}
      needed={needed ?? false}
      offers={offersOf(parts, field.path)}
      usual={parts.length === 1 ? usualOf(part, field.path, units) : null}
      range={rangeOf(describedAs(part), field.path)}
      take={(next, typed) =>
        commit(field, (before) =>
          setValue(
            before,
            parts.map((each) => each.id),
            field.path,
            next,
            typed,
          ),
        )
      }
    />
  );
}
