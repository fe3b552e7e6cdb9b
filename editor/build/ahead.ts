import type { Plugin, Rolldown } from 'vite';

/**
 * The first script asks for the page as soon as it runs. The page and all that comes with it are named in the document itself, so that
 * the browser fetches them together with the first script and not after it.
 */
const PAGE = 'page';

export const ahead = (): Plugin => ({
  name: 'ahead',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(html, { bundle = {} }) {
      const chunks = Object.values(bundle).filter((each): each is Rolldown.OutputChunk => each.type === 'chunk');
      const files = new Set<string>();
      const add = (file: string): void => {
        if (files.has(file)) return;
        files.add(file);
        bundle[file]?.type === 'chunk' && (bundle[file] as Rolldown.OutputChunk).imports.forEach(add);
      };
      for (const each of chunks) if (each.name === PAGE) add(each.fileName);
      if (files.size === 0) throw new Error(`no script is named ${PAGE}`);
      return [...files]
        .filter((file) => !html.includes(file))
        .map((file) => ({ tag: 'link', attrs: { rel: 'modulepreload', crossorigin: true, href: `./${file}` }, injectTo: 'head' as const }));
    },
  },
});
