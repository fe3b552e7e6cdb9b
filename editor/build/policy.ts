import type { Plugin } from 'vite';

/** What the page may load and run: its own files, nothing from elsewhere, and no text as code. */

const RULES: Readonly<Record<string, string>> = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self' data: blob:",
  'font-src': "'self'",
  'connect-src': "'self'",
  'worker-src': "'self'",
  // The set of sheets is looked at in the browser's own PDF reader.
  'frame-src': 'blob:',
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'object-src': "'none'",
  'frame-ancestors': "'none'",
  'require-trusted-types-for': "'script'",
  'trusted-types': 'app',
};

const text = (rules: Readonly<Record<string, string | undefined>>): string =>
  Object.entries(rules)
    .flatMap(([name, value]) => (value === undefined ? [] : `${name} ${value}`))
    .join('; ');

const HEADER = { 'Content-Security-Policy': text(RULES) };

/** While it is being developed, styles and the exchange of modules come as inline text and over a socket. */
const DEVELOPING = {
  'Content-Security-Policy': text({
    ...RULES,
    'script-src': "'self' 'unsafe-inline'",
    'style-src': "'self' 'unsafe-inline'",
    'connect-src': "'self' ws:",
    'require-trusted-types-for': undefined,
    'trusted-types': undefined,
  }),
};

/** In the page itself, so that it holds wherever the files are put; and as a header where a server can be told. */
export const contentPolicy = (): Plugin => ({
  name: 'content-policy',
  config: () => ({ server: { headers: DEVELOPING }, preview: { headers: HEADER } }),
  transformIndexHtml: {
    order: 'pre',
    handler: (_, { server }) =>
      server
        ? []
        : [
            {
              tag: 'meta',
              // A page cannot say who may frame it: browsers heed that in a header alone, and complain.
              attrs: { 'http-equiv': 'Content-Security-Policy', content: text({ ...RULES, 'frame-ancestors': undefined }) },
              injectTo: 'head-prepend',
            },
          ],
  },
});
