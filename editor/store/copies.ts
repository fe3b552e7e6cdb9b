import {
  type Cable,
  type Element,
  freeTags,
  type LineUp,
  load,
  namedByProject,
  raceways,
  save,
  withoutAsBuilt,
} from '../../engine/index.ts';
import type { At } from './edits.ts';

/** Parts taken out of a line-up as one of their own, and put into another or the same again, renumbered. */

/** The chosen parts and the cables between them; null when no part is chosen. */
export function excerpt(lineUp: LineUp, ids: readonly string[]): LineUp | null {
  const chosen = new Set(ids);
  const elements = lineUp.elements.filter((each) => chosen.has(each.id));
  if (elements.length === 0) return null;
  const inside = (id: string | undefined) => id !== undefined && chosen.has(id);
  return {
    ...lineUp,
    elements,
    cables: lineUp.cables.filter((each) => inside(each.from.element) && inside(each.to.element)),
    positions: Object.fromEntries(Object.entries(lineUp.positions).filter(([id]) => elements.some((each) => each.id === id))),
  };
}

/** What goes over the clipboard is a line-up as any file: it is read with the same care. */
export const toText = (clip: LineUp): string => save(clip);
export function fromText(text: string): LineUp | null {
  const loaded = load(text, 'clipboard');
  return loaded.ok && loaded.lineUp.elements.length > 0 ? loaded.lineUp : null;
}

export interface Put {
  readonly lineUp: LineUp;
  /** The new parts. */
  readonly ids: readonly string[];
}

/** @param feeds cables of the same line-up that lead from outside into the clip: the copies are fed from the same place */
export function putIn(lineUp: LineUp, clip: LineUp, shifts: readonly At[], feeds: readonly Cable[] = []): Put {
  const tagsOfCopy = tagsLike(lineUp);
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.id));
  let number = used.size;
  const nextId = (prefix: 'e' | 'c'): string => {
    do number++;
    while (used.has(`${prefix}${number}`));
    return `${prefix}${number}`;
  };
  const racewayOf = raceways([...clip.cables, ...feeds]);
  const elements: Element[] = [];
  const cables: Cable[] = [];
  const positions: Record<string, At> = {};
  for (const shift of shifts) {
    const nextTag = tagsOfCopy();
    const renamed = new Map<string, string>();
    for (const each of clip.elements) renamed.set(each.id, nextId('e'));
    for (const each of [...clip.cables, ...feeds]) renamed.set(each.id, nextId('c'));
    const now = (id: string): string => renamed.get(id) ?? id;
    for (const each of clip.elements) {
      const at = clip.positions[each.id] ?? { x_mm: 0, y_mm: 0 };
      positions[now(each.id)] = { x_mm: at.x_mm + shift.x_mm, y_mm: at.y_mm + shift.y_mm };
      elements.push({ ...withoutAsBuilt(each), id: now(each.id), tag: nextTag(each) });
    }
    for (const each of [...clip.cables, ...feeds]) {
      const beside = (racewayOf.get(each.id) ?? []).filter(({ id }) => id !== each.id);
      const { sharedWith } = each.installation;
      // Beside what it lies that is not copied too is not known.
      const shared = beside.length > 0 ? beside.map(({ id }) => now(id)) : sharedWith?.length ? undefined : sharedWith;
      cables.push({
        ...withoutAsBuilt(each),
        id: now(each.id),
        tag: nextTag(each),
        from: { ...each.from, ...(each.from.element && { element: now(each.from.element) }) },
        to: { ...each.to, ...(each.to.element && { element: now(each.to.element) }) },
        installation: { ...each.installation, sharedWith: shared },
      });
    }
  }
  return {
    ids: [...elements, ...cables].map((each) => each.id),
    lineUp: {
      ...lineUp,
      elements: [...lineUp.elements, ...elements],
      cables: [...lineUp.cables, ...cables],
      positions: { ...lineUp.positions, ...positions },
    },
  };
}

/** 'W-2A' as 'W-', '2' and 'A'. */
function pieces(tag: string) {
  const [, stem, figures, letter = ''] = /^(.*?)(\d+)([-.]?\p{L})?$/u.exec(tag) ?? [];
  return stem === undefined || figures === undefined ? null : { stem, figures, letter };
}

/**
 * A free tag of the same style: 'P-07' is followed by 'P-08', 'UTIL' by 'UTIL-2' unless the project has names of its own, a tag that is free is
 * kept. What shares its number but for a letter shares it in each copy too: of 'W-2A' and 'W-2B' come 'W-3A' and 'W-3B'.
 */
function tagsLike(lineUp: LineUp): () => (part: Element | Cable) => string {
  const used = new Set<string>();
  const lettered = new Set<string>();
  const use = (tag: string): string => {
    used.add(tag);
    const own = pieces(tag);
    if (own?.letter) lettered.add(own.stem + own.figures);
    return tag;
  };
  for (const part of [...lineUp.elements, ...lineUp.cables]) use(part.tag);
  const fresh = freeTags(lineUp);
  return () => {
    const shared = new Map<string, string>();
    return (part) => {
      const own = pieces(part.tag);
      if (!own) {
        const kind = part.kind === 'link' ? 'cable' : part.kind;
        if (!used.has(part.tag)) return use(part.tag);
        if (namedByProject(lineUp.project, kind)) return use(fresh(kind));
        let copy = 2;
        while (used.has(`${part.tag}-${copy}`)) copy++;
        return use(`${part.tag}-${copy}`);
      }
      const before = own.stem + own.figures;
      let number = Number(own.figures);
      let numbered = (own.letter && shared.get(before)) || before;
      while (
        used.has(numbered + own.letter) ||
        (own.letter && numbered !== before && numbered !== shared.get(before) && lettered.has(numbered))
      )
        numbered = `${own.stem}${`${++number}`.padStart(own.figures.length, '0')}`;
      if (own.letter) shared.set(before, numbered);
      return use(numbered + own.letter);
    };
  };
}

/** From one copy to the next when nothing else asks for more. */
const COLUMN_mm = 100;

/** So many more like the chosen parts, side by side at the right of everything, fed from the same bus or box as they are. */
export function more(lineUp: LineUp, ids: readonly string[], count: number): Put | null {
  const clip = excerpt(lineUp, ids);
  if (!clip) return null;
  const inside = new Set(clip.elements.map((each) => each.id));
  const feeds = lineUp.cables.filter(
    ({ from, to }) => from.element !== undefined && !inside.has(from.element) && inside.has(to.element ?? ''),
  );
  const xs = Object.values(clip.positions).map((at) => at.x_mm);
  const left = Math.min(...xs);
  const pitch = Math.max(...xs) - left + COLUMN_mm;
  const right = Math.max(...Object.values(lineUp.positions).map((at) => at.x_mm));
  const shifts = Array.from({ length: count }, (_, i) => ({ x_mm: right - left + COLUMN_mm + i * pitch, y_mm: 0 }));
  return putIn(lineUp, clip, shifts, feeds);
}
