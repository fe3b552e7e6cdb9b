import type { Cable, Element } from '../../engine/index.ts';

/** Parts and cables of which nothing is known but how they hang together. */

export const barePart = (kind: Element['kind'], id: string, more: object = {}): Element => ({ kind, id, tag: id, ...more }) as Element;

/** An end lands on 'b', a bus or a part with one side, or on 'q:load', one side of two; an empty one leads nowhere. */
export const bareCable = (id: string, from: string, to: string): Cable => {
  const end = (at: string) => {
    const [element = '', port] = at.split(':');
    return (at === '' ? {} : { element, ...(port ? { port } : {}) }) as Cable['from'];
  };
  const blank = { conductor: {}, insulation: {}, grounds: {}, auxiliary: [], installation: {} };
  return { id, tag: id, kind: 'cable', from: end(from), to: end(to), ...blank };
};
