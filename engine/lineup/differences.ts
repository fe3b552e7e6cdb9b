import type { Cable } from './cable.ts';
import type { Element } from './elements.ts';
import { FIELDS, valueAt, withValueAt } from './fields.ts';
import { describedAs, isCable } from './isCable.ts';
import type { Design } from './lineUp.ts';
import type { Project } from './project.ts';
import { PROJECT_GROUPS, PROJECT_HEAD } from './projectFields.ts';
import { shownValue } from './shownValue.ts';
import type { Units } from './units.ts';

/** What changed from one issue of a line-up to the next: parts by their id, values by their field. Where a part stands on the sheet is no change. */

export interface Difference {
  /** Of the part; '' for the project. */
  readonly id: string;
  readonly tag: string;
  readonly kind: 'added' | 'removed' | 'changed';
  readonly changes: readonly { readonly label: string; readonly before: string; readonly after: string }[];
}

type Part = Element | Cable;

export function differences(before: Design, after: Design): readonly Difference[] {
  const old = new Map<string, Part>([...before.elements, ...before.cables].map((part) => [part.id, part]));
  const now = new Map<string, Part>([...after.elements, ...after.cables].map((part) => [part.id, part]));
  const { units } = after.project;
  const found: Difference[] = projectChanges(before, after);
  for (const part of now.values()) {
    const was = old.get(part.id);
    if (!was) found.push({ id: part.id, tag: part.tag, kind: 'added', changes: [] });
    else if (!alike(was, part))
      found.push({ id: part.id, tag: part.tag, kind: 'changed', changes: partChanges(was, part, before, after, units) });
  }
  for (const part of old.values()) if (!now.has(part.id)) found.push({ id: part.id, tag: part.tag, kind: 'removed', changes: [] });
  return found;
}

/** The same in all but how its values were typed. */
const alike = (a: Part, b: Part): boolean => written(a) === written(b);
const written = (value: unknown): string =>
  JSON.stringify(value, (key, inner) =>
    key === 'provenance'
      ? undefined
      : typeof inner === 'object' && inner !== null && !Array.isArray(inner)
        ? Object.fromEntries(Object.entries(inner).sort(([x], [y]) => (x < y ? -1 : 1)))
        : inner,
  ) ?? '';

function partChanges(was: Part, part: Part, before: Design, after: Design, units: Units): Difference['changes'] {
  const changes: { label: string; before: string; after: string }[] = [];
  const note = (label: string, from: string, to: string): void => {
    if (from !== to) changes.push({ label, before: from, after: to });
  };
  note('Tag', was.tag, part.tag);
  note('Kind', describedAs(was), describedAs(part));
  for (const end of ['from', 'to'] as const)
    note(end === 'from' ? 'Starts at' : 'Ends at', landsOn(was, end, before), landsOn(part, end, after));
  for (const field of FIELDS[describedAs(part)]) {
    const shown = (value: unknown): string => (value === undefined ? 'not known' : shownValue(field, value, units));
    const [from, to] = [valueAt(was, field.path), valueAt(part, field.path)];
    if (from !== to) changes.push({ label: field.label, before: shown(from), after: shown(to) });
  }
  if (changes.length === 0 || !alike(unnamed(was), unnamed(part)))
    changes.push({ label: 'Other values', before: 'as before', after: 'changed' });
  return changes;
}

/** What no row of its own tells: lists, and fields that this version does not name. */
const unnamed = (part: Part): Part =>
  ['tag', 'kind', ...(isCable(part) ? LANDS : []), ...FIELDS[describedAs(part)].map(({ path }) => path)].reduce(
    (rest, path) => withValueAt(rest, path, undefined),
    part,
  );
const LANDS = ['from.element', 'from.port', 'to.element', 'to.port'];

function landsOn(part: Part, end: 'from' | 'to', lineUp: Design): string {
  if (!isCable(part)) return '';
  const { element, port } = part[end];
  if (element === undefined) return 'nowhere';
  return [lineUp.elements.find((each) => each.id === element)?.tag, port].filter(Boolean).join(', ');
}

/** Fields of the title block change with every issue, and are no change of the line-up: `paperDifferences.ts` tells them. */
const TITLE_BLOCK = new Set(['revision', 'date', 'status', 'createdBy', 'checkedBy', 'approvedBy', 'sheetSize', 'showGrounds', 'summary']);

/** What short words of the file mean. */
const MEANS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  basis: { us: 'US practice', iec: 'IEC practice' },
  symbols: { us: 'of US practice', iec: 'of IEC practice' },
  units: { us: 'ft, hp', metric: 'm, kW' },
};

function projectChanges(before: Design, after: Design): Difference[] {
  const { units } = after.project;
  const changes: { label: string; before: string; after: string }[] = [];
  const named = [...PROJECT_HEAD, ...PROJECT_GROUPS.flatMap(({ fields }) => fields)];
  for (const field of named) {
    if (TITLE_BLOCK.has(field.path)) continue;
    const [from, to] = [before, after].map(({ project }) => {
      const value = valueAt(project, field.path);
      return value === undefined ? 'not set' : (MEANS[field.path]?.[String(value)] ?? shownValue(field, value, units));
    });
    if (valueAt(before.project, field.path) !== valueAt(after.project, field.path))
      changes.push({ label: field.label, before: from ?? '', after: to ?? '' });
  }
  const [was, now] = [before.project.checks, after.project.checks];
  for (const slug of new Set([...Object.keys(was), ...Object.keys(now)]))
    if (written(was[slug]) !== written(now[slug]))
      changes.push({ label: `Check ${slug}`, before: switchedText(was[slug]), after: switchedText(now[slug]) });
  // What this version does not name.
  const told = new Set(['checks', 'limits', 'designations', ...named.map(({ path }) => path)]);
  const [old, own] = [before.project as Record<string, unknown>, after.project as Record<string, unknown>];
  for (const name of new Set([...Object.keys(old), ...Object.keys(own)]))
    if (!told.has(name) && !TITLE_BLOCK.has(name) && written(old[name]) !== written(own[name]))
      changes.push({ label: name, before: shownOf(old[name]), after: shownOf(own[name]) });
  return changes.length > 0 ? [{ id: '', tag: 'project', kind: 'changed', changes }] : [];
}
const switchedText = (check: Project['checks'][string] | undefined): string =>
  check?.off ? `switched off, ${check.reason?.trim() || 'no reason given'}` : 'on';
const shownOf = (value: unknown): string => (value === undefined ? 'not set' : typeof value === 'string' ? value : written(value));
