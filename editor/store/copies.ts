import { type Cable, type Element, freeTags, type LineUp, load, save, withoutAsBuilt } from '../../engine/index.ts';
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
  const nextTag = tagsLike(lineUp);
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.id));
  let number = used.size;
  const nextId = (prefix: 'e' | 'c'): string => {
    do number++;
    while (used.has(`${prefix}${number}`));
    return `${prefix}${number}`;
  };
  const elements: Element[] = [];
  const cables: Cable[] = [];
  const positions: Record<string, At> = {};
  for (const shift of shifts) {
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
      const shared = each.installation.sharedWith?.flatMap((id) => renamed.get(id) ?? []);
      cables.push({
        ...withoutAsBuilt(each),
        id: now(each.id),
        tag: nextTag(each),
        from: { ...each.from, ...(each.from.element && { element: now(each.from.element) }) },
        to: { ...each.to, ...(each.to.element && { element: now(each.to.element) }) },
        installation: { ...each.installation, ...(shared && { sharedWith: shared }) },
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

/** A free tag of the same style: 'P-07' is followed by 'P-08', a tag that is free is kept. */
function tagsLike(lineUp: LineUp): (part: Element | Cable) => string {
  const used = new Set([...lineUp.elements, ...lineUp.cables].map((part) => part.tag));
  const fresh = freeTags(lineUp);
  const choose = (part: Element | Cable): string => {
    if (!used.has(part.tag)) return part.tag;
    const [, stem, figures] = /^(.*?)(\d+)$/.exec(part.tag) ?? [];
    if (stem === undefined || figures === undefined) return fresh(part.kind === 'link' ? 'cable' : part.kind);
    let number = Number(figures);
    const tag = () => `${stem}${`${number}`.padStart(figures.length, '0')}`;
    while (used.has(tag())) number++;
    return tag();
  };
  return (part) => {
    const tag = choose(part);
    used.add(tag);
    return tag;
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
