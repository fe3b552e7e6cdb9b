/** Keeps the files of one version and answers with them, so that the program starts without a net. It takes over only when it is asked to. */

interface Waiting {
  waitUntil(done: Promise<unknown>): void;
}
interface Fetching extends Waiting {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
/** The part of the browser's own types that is used here: its types for workers and for pages exclude each other. */
interface Keeper {
  readonly registration: { readonly scope: string; unregister(): Promise<boolean> };
  readonly clients: {
    claim(): Promise<void>;
    matchAll(about: { includeUncontrolled: boolean }): Promise<readonly { readonly id: string }[]>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listen: (event: Waiting) => void): void;
  addEventListener(type: 'fetch', listen: (event: Fetching) => void): void;
  addEventListener(type: 'message', listen: (event: MessageEvent) => void): void;
}
/** Written in by the build: each file with the hash that it must have. */
declare const VERSION: string;
declare const FILES: Readonly<Record<string, string>>;

const keeper = globalThis as unknown as Keeper;
const { scope } = keeper.registration;
/** Several copies of the program may stand in folders of one origin. */
const OURS = `${scope} `;
const CACHE = `${OURS}${VERSION}`;

/** What earlier versions kept, as long as a page of theirs may still be open: it fetches its late parts by names of its own. */
async function forgetOthers(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
}

/** The file of this version, else that of an earlier one, else the server's. */
async function answer(request: Request): Promise<Response> {
  const asked = request.url.replace(/[?#].*/, '').replace(`${scope}index.html`, scope);
  const kept = await (await caches.open(CACHE)).match(asked, { ignoreVary: true });
  return kept ?? (await caches.match(asked, { ignoreVary: true })) ?? fetch(request);
}

if (import.meta.env.VITE_OFFLINE === 'off') {
  // The way out: put on the server in place of the other, it takes itself and all that was kept away.
  keeper.addEventListener('install', () => void keeper.skipWaiting());
  keeper.addEventListener('activate', (event) => event.waitUntil(forgetOthers().then(() => keeper.registration.unregister())));
} else {
  keeper.addEventListener('install', (event) =>
    event.waitUntil(
      caches
        .open(CACHE)
        .then((cache) =>
          cache.addAll(
            Object.entries(FILES).map(([path, hash]) => new Request(new URL(path, scope), { integrity: hash, cache: 'no-cache' })),
          ),
        ),
    ),
  );
  keeper.addEventListener('activate', (event) => event.waitUntil(keeper.clients.claim()));
  keeper.addEventListener('message', ({ data }) => void (data === 'take over' && keeper.skipWaiting()));
  keeper.addEventListener('fetch', (event) => {
    const { method, url, mode } = event.request;
    if (method !== 'GET' || !url.startsWith(scope)) return;
    event.respondWith(answer(event.request));
    if (mode === 'navigate')
      event.waitUntil(
        keeper.clients.matchAll({ includeUncontrolled: true }).then((pages) => (pages.length === 0 ? forgetOthers() : undefined)),
      );
  });
}
