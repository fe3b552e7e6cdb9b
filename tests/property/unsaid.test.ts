import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { setValue } from '../../editor/store/edits.ts';
import { type Cable, type Element, FIELDS, type Finding, type LineUp, load, review, sayOf, valueAt } from '../../engine/index.ts';
import { namedOf } from '../../engine/lineup/fields.ts';

/**
 * Nothing that a verdict hangs on goes unsaid. Where taking one value away leaves a finding open, that finding had named the value among
 * its inputs, and now asks for it; or for another, where the worst is assumed in its place and that other one decides: without its power a
 * motor reflects all of the wave, and then the rise time does.
 */

const FOLDER = join(import.meta.dirname, '../../examples');
const SITES = readdirSync(FOLDER).flatMap((name) => {
  const loaded = load(readFileSync(join(FOLDER, name), 'utf8'));
  if (!loaded.ok) throw new Error(`${name}: ${loaded.what}`);
  const { lineUp } = loaded;
  return (['us', 'iec'] as const).map((basis) => [name, basis, { ...lineUp, project: { ...lineUp.project, basis } }] as const);
});

const isJudged = ({ verdict }: Finding): boolean => ['pass', 'note', 'caution', 'fail'].includes(verdict);
const kindOf = ({ kind }: Element | Cable) => (kind === 'link' ? 'cable' : kind);

/** Of which the worst is assumed where the wave is solved without them. */
const bounded = new Set(['ratedPower_W', 'conductor.size', 'conductor.sets', 'construction', 'insulation.type']);

function unsaid(lineUp: LineUp): readonly string[] {
  const say = sayOf(lineUp);
  const before = review(lineUp).findings.filter(isJudged);
  return [...lineUp.elements, ...lineUp.cables].flatMap((part) =>
    FIELDS[kindOf(part)]
      .filter(({ path }) => valueAt(part, path) !== undefined)
      .flatMap(({ path, ...called }) => {
        const after = new Map(review(setValue(lineUp, part.id, path, undefined)).findings.map((each) => [each.id, each]));
        return before.flatMap((was) => {
          const is = after.get(was.id);
          if (is?.verdict !== 'open') return [];
          return [
            ...(is.missing.some((each) => each.id === part.id && each.field === path) || (bounded.has(path) && is.missing.length > 0)
              ? []
              : [`${is.id} does not ask for ${path} of ${part.tag}`]),
            ...(was.inputs.some(({ what }) => what === say(namedOf(called, part.tag)))
              ? []
              : [`${was.id} does not name ${path} of ${part.tag}`]),
          ];
        });
      }),
  );
}

describe('a value that a verdict hangs on', () => {
  it.each(SITES)('%s, %s: is asked for where it is missing, and named where it is there', (_name, _basis, lineUp) => {
    expect(unsaid(lineUp)).toEqual([]);
  });
});
