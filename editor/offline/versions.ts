import { keeper } from '../files/autosave.ts';
import { addressOf } from '../store/threads.ts';

/** Keeps the program in the browser, and says when there is another version of it than the one this tab runs. */

/** Another version waits to take over, or has done so at the wish of another tab. */
export type Newer = 'waits' | 'took over';

let registration: ServiceWorkerRegistration | null = null;
let switching = false;

export async function watchVersions(tell: (newer: Newer) => void): Promise<void> {
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!workers || !import.meta.env.PROD || import.meta.env.VITE_OFFLINE === 'off') return;
  // The first that comes is this very version.
  let first = workers.controller === null;
  workers.addEventListener('controllerchange', () => {
    if (switching) void restart();
    else if (!first) tell('took over');
    first = false;
  });
  // Where the browser keeps nothing, a private window for one, the program runs all the same.
  registration = await workers.register(addressOf('serviceWorker'), { updateViaCache: 'none' }).catch(() => null);
  if (!registration) return;
  const { waiting } = registration;
  const look = () => registration?.waiting && workers.controller && tell('waits');
  if (waiting) look();
  registration.addEventListener('updatefound', () => registration?.installing?.addEventListener('statechange', look));
  // A tab may stay open for weeks.
  document.addEventListener(
    'visibilitychange',
    () => document.visibilityState === 'visible' && void registration?.update().catch(() => undefined),
  );
}

/** The work is in the browser before this tab is loaded anew. False: it could not be kept, and all stays as it is. */
async function restart(): Promise<boolean> {
  if (!(await keeper.flush())) return false;
  // It is kept: there is nothing to ask about a file.
  addEventListener('beforeunload', (event) => event.stopImmediatePropagation(), { capture: true });
  location.reload();
  return true;
}

/** Goes over to the newer version, with the work. False as above. */
export async function switchVersion(): Promise<boolean> {
  const { waiting } = registration ?? {};
  if (!waiting) return restart();
  if (!(await keeper.flush())) return false;
  switching = true;
  waiting.postMessage('take over');
  return true;
}
