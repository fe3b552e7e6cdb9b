/** What made a file, down to the state of its source: set by the build, and by the command line before anything else. */
declare global {
  var COPPERLINE_BUILD: string | undefined;
}
const build = globalThis.COPPERLINE_BUILD;

/** Where there is no room for more. */
export const PROGRAM = 'Copperline 0.1.0';
export const MAKER = `${PROGRAM}${build === undefined ? '' : ` (${build})`}`;
