import { review as judge, type Review } from '../../engine/index.ts';
import { bundled, type Format, type Package, type Step, type Written, write } from '../../engine/submittal/formats.ts';

/** The writers on a thread of their own: a set of a hundred sheets takes seconds, and the sheet on screen goes on meanwhile. */

export interface PackageOrder extends Omit<Package, 'fonts' | 'onStep' | 'review'> {
  /** Undefined: it is judged here. */
  readonly review: Review | undefined;
  readonly format: Format;
  /** Address of the folder of the fonts. */
  readonly fontsAt: string;
}

/** How far it is, over and over, and in the end what was asked for. */
export type WriterSays = Step | Written;
const say = (what: WriterSays): void => postMessage(what);

const fetched = async (address: string) => new Uint8Array(await (await fetch(address)).arrayBuffer());

addEventListener('message', async ({ data: { format, fontsAt, review, ...rest } }: MessageEvent<PackageOrder>) => {
  const fonts = async () => {
    const [regular, semibold] = await Promise.all([fetched(`${fontsAt}sans-400.woff`), fetched(`${fontsAt}sans-600.woff`)]);
    return { regular, semibold };
  };
  try {
    say(bundled(format, await write(format, { ...rest, review: review ?? judge(rest.lineUp), fonts, onStep: say })));
  } catch (fault) {
    // A rejected promise does not reach the other side; an exception of no promise's does.
    setTimeout(() => {
      throw fault;
    });
  }
});
