import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

/** The service worker, with the list of all files that the program needs without a net, each with its hash. */

const hashOf = (content: string | Uint8Array): string => `sha256-${createHash('sha256').update(content).digest('base64')}`;

/** Of what is served as it lies in its folder: not what only people and other programs read. */
const isNeeded = (path: string): boolean => /^(fonts\/.*\.woff2?$|icons\/|app\.webmanifest$)/.test(path);

export function offline(): Plugin {
  let publicDir = '';
  return {
    name: 'offline',
    apply: 'build',
    config: () => ({
      define: { 'import.meta.env.VITE_OFFLINE': JSON.stringify(process.env['VITE_OFFLINE'] ?? 'on') },
      build: {
        rolldownOptions: {
          input: { index: 'index.html', serviceWorker: 'editor/offline/serviceWorker.ts' },
          // Its address says which pages it may answer, and never changes.
          output: { entryFileNames: ({ name }) => (name === 'serviceWorker' ? '[name].js' : 'assets/[name]-[hash].js') },
        },
      },
    }),
    configResolved: (config) => {
      publicDir = config.publicDir;
    },
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const files: Record<string, string> = {};
        for (const each of Object.values(bundle)) {
          const { fileName } = each;
          if (fileName === 'serviceWorker.js' || fileName.startsWith('.vite/')) continue;
          files[fileName === 'index.html' ? './' : fileName] = hashOf(each.type === 'chunk' ? each.code : each.source);
        }
        for (const path of readdirSync(publicDir, { recursive: true, encoding: 'utf8' }).map((each) => each.replaceAll('\\', '/')))
          if (isNeeded(path)) files[path] = hashOf(readFileSync(join(publicDir, path)));
        const list = JSON.stringify(Object.fromEntries(Object.entries(files).sort(([a], [b]) => (a < b ? -1 : 1))));
        const version = createHash('sha256').update(list).digest('hex').slice(0, 12);
        const worker = bundle['serviceWorker.js'];
        if (worker?.type !== 'chunk' || worker.imports.length > 0) this.error('the service worker is not a script by itself');
        else worker.code = `const VERSION=${JSON.stringify(version)},FILES=${list};${worker.code}`;
      },
    },
  };
}
