import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';

/** The built site on a plain web server, in a folder of its own: nothing asks for the root. */

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
export const FOLDER = '/some/deep/folder/';
export const DIST = join(import.meta.dirname, '../../dist');

export interface Site {
  readonly address: string;
  /** From now on it serves what is built there. */
  moveTo(folder: string): void;
  stop(): Promise<void>;
}

export async function serve(built: string): Promise<Site> {
  let root = built;
  const server = createServer((request, response) => {
    const path = (request.url ?? '').split('?')[0] ?? '';
    const file = join(root, normalize(path.slice(FOLDER.length - 1).replace(/\/$/, '/index.html')));
    if (!path.startsWith(FOLDER) || !file.startsWith(root) || !statSync(file, { throwIfNoEntry: false })?.isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((ready) => server.listen(0, ready));
  const at = server.address();
  return {
    address: `http://localhost:${typeof at === 'object' && at ? at.port : 0}${FOLDER}`,
    moveTo: (folder) => {
      root = folder;
    },
    stop: () =>
      new Promise((stopped) => {
        server.close(() => stopped());
        server.closeAllConnections();
      }),
  };
}
