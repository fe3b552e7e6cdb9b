import { dirname, resolve } from 'node:path';
import type { Plugin } from 'vite';

/**
 * The scripts that run on threads of their own are chunks of the one build, so that they share its other chunks. Bundled apart, as is
 * usual for them, each would bring a whole engine with it.
 */

const ADDRESS = /new URL\('(\.[^']+Worker\.ts)', import\.meta\.url\)/g;

/** What the build puts round each late import: it asks the page for what the part needs, and a thread has no page. */
const FETCHER = '\0vite/preload-helper.js';
const PLAIN_FETCHER = '\0plain-fetcher.js';

export const threads = (): Plugin => {
  let editor = '';
  return {
    name: 'threads',
    apply: 'build',
    enforce: 'pre',
    configResolved: ({ root }) => {
      editor = `${resolve(root, 'editor').replaceAll('\\', '/')}/`;
    },
    // The engine and its libraries import late on threads alone, and the editor on the page alone.
    resolveId: (source, importer) => (source === FETCHER && !importer?.startsWith(editor) ? PLAIN_FETCHER : null),
    load: (id) => (id === PLAIN_FETCHER ? 'export const __vitePreload = (fetched) => fetched();' : null),
    transform: {
      filter: { code: ADDRESS },
      handler(code, id) {
        return code.replace(ADDRESS, (_, path: string) => {
          const chunk = this.emitFile({ type: 'chunk', id: resolve(dirname(id), path), preserveSignature: false });
          return `new URL(import.meta.ROLLUP_FILE_URL_${chunk})`;
        });
      },
    },
  };
};
