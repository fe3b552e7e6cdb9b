import { useCallback, useRef } from 'react';

/**
 * The same function at every drawing, which does what the one last given does. React Flow tells each part and cable of every handler that
 * is another one than before.
 */
export function useLatest<Args extends readonly unknown[], Answer>(act: (...args: Args) => Answer): (...args: Args) => Answer {
  const latest = useRef(act);
  latest.current = act;
  return useCallback((...args) => latest.current(...args), []);
}
