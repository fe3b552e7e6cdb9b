import type { Plugin } from 'vite';

/** What libraries bring along and nothing here calls: it stays out of what a browser fetches. */

/** Of jsPDF: pages turned into pictures, and pictures put on pages. */
const PACKAGES = /^(html2canvas|canvg|dompurify|fast-png)$/;
/** Of zod: JSON schemas, which the command line alone writes. */
const MODULES = /\/zod\/v4\/core\/(to-json-schema|json-schema-processors)\.js$/;

const NOTHING = '\0left-out.js';
const FUNCTION = `const leftOut = () => { throw new Error('This part of a library was left out of the build.'); };\n`;

export const leftOut = (): Plugin => ({
  name: 'left-out',
  apply: 'build',
  enforce: 'pre',
  resolveId: { filter: { id: PACKAGES }, handler: () => NOTHING },
  load: (id) => (id === NOTHING ? `${FUNCTION}export default {};\nexport { leftOut as decode };` : null),
  transform: {
    filter: { id: MODULES },
    handler: (code) =>
      `${FUNCTION}export { ${[...code.matchAll(/^export (?:const|function) (\w+)/gm)].map(([, name]) => `leftOut as ${name}`).join(', ')} };`,
  },
});
