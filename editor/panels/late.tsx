import { type ComponentType, type ReactNode, useLayoutEffect, useReducer } from 'react';
import { refuse } from '../store/editorStore.ts';

export const notFetched = (): void => refuse('A part of Copperline could not be fetched. Load the page anew; your work is kept.');

/**
 * A panel whose code is fetched when it is first shown, and which stands there at once from then on. React's own way of doing so shows
 * what it fetched 300 ms late, however soon it came.
 * @param load the same import each time
 * @param meanwhile what stands in its place until then
 */
export function late<Props extends object>(load: () => Promise<{ readonly default: ComponentType<Props> }>, meanwhile: ReactNode = null) {
  let Panel: ComponentType<Props> | null = null;
  const fetched = (): Promise<void> =>
    load().then((module) => {
      Panel = module.default;
    });
  function Late(props: Props) {
    const [, again] = useReducer((count: number) => count + 1, 0);
    useLayoutEffect(() => {
      if (!Panel) fetched().then(again, notFetched);
    }, []);
    return Panel ? <Panel {...props} /> : meanwhile;
  }
  return Object.assign(Late, { fetched });
}
