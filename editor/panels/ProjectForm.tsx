import { useEffect, useRef } from 'react';
import { type LineUp, PART_NAMES, PROJECT_GROUPS, valueAt } from '../../engine/index.ts';
import { run } from '../commands/commands.ts';
import { commit } from '../store/commit.ts';
import { useEditor } from '../store/editorStore.ts';
import { setProject } from '../store/edits.ts';
import { SwitchedChecks } from './SwitchedChecks.tsx';
import { ValueField } from './ValueField.tsx';

/** What holds for the whole line-up: title block, sheet, and the limits this project sets. */

const PATHS = new Set(PROJECT_GROUPS.flatMap((group) => group.fields.map((each) => each.path)));

export function ProjectForm({ project }: { readonly project: LineUp['project'] }) {
  const focusField = useEditor((state) => (state.selected.length === 0 ? state.focusField : null));
  const fold = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (focusField && PATHS.has(focusField) && fold.current) fold.current.open = true;
  }, [focusField]);
  return (
    <details ref={fold}>
      <summary>Title block and limits</summary>
      {PROJECT_GROUPS.map((group) => (
        <section key={group.title}>
          <h2>{group.title}</h2>
          {group.fields.map((each) => (
            <ValueField
              key={each.path}
              field={each}
              value={valueAt(project, each.path)}
              unset="not set"
              units={project.units}
              take={(value) => commit(each, (before) => setProject(before, each.path, value))}
            />
          ))}
          {group.title === PART_NAMES && (
            <button type="button" onClick={() => run('renumber')}>
              Renumber all parts
            </button>
          )}
        </section>
      ))}
      <SwitchedChecks project={project} />
    </details>
  );
}
