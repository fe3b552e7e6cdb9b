import type { Plugin } from 'vite';

/** What libraries bring along and nothing here calls: it stays out of what a browser fetches. */

/** Of jsPDF: pages turned into pictures, and pictures put on pages. */
const PACKAGES = /^(html2canvas|canvg|dompurify|fast-png)$/;
/** Of zod: JSON schemas, which the command line alone writes. Of the canvas library: colours between colours, which no zoom asks for. */
const MODULES = /\/zod\/v4\/core\/(to-json-schema|json-schema-processors)\.js$|\/d3-color\/dist\/d3-color\.mjs$/;

/**
 * Of the canvas library too: how the view glides from place to place. Here it jumps, and never by a double click, so that there is no glide to
 * begin; that one be stopped is still asked for at every touch.
 */
const GLIDES = /\/d3-transition\/dist\/d3-transition\.mjs$/;
const NO_GLIDES = `import { selection } from 'd3-selection';
selection.prototype.interrupt = function () { return this; };
export const interrupt = () => {};
`;

const NOTHING = '\0left-out.js';
// With a prototype: of what is left out it may still be asked whether something was made by it.
const FUNCTION = `function leftOut() { throw new Error('This part of a library was left out of the build.'); }\n`;

export const leftOut = (): Plugin => ({
  name: 'left-out',
  apply: 'build',
  enforce: 'pre',
  resolveId: { filter: { id: PACKAGES }, handler: () => NOTHING },
  load: (id) => (id === NOTHING ? `${FUNCTION}export default {};\nexport { leftOut as decode };` : null),
  transform: {
    filter: { id: [MODULES, GLIDES] },
    handler: (code, id) =>
      GLIDES.test(id)
        ? { code: NO_GLIDES, moduleSideEffects: true }
        : `${FUNCTION}export { ${exportsOf(code)
            .map((name) => `leftOut as ${name}`)
            .join(', ')} };`,
  },
});

const exportsOf = (code: string): readonly string[] => [
  ...[...code.matchAll(/^export (?:const|function) (\w+)/gm)].map(([, name = '']) => name),
  ...[...code.matchAll(/^export \{([^}]*)\}/gm)].flatMap(([, list = '']) =>
    list.split(',').map((each) => each.replace(/.* as /s, '').trim()),
  ),
];
