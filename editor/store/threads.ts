/** The only scripts that are started by their address. */
const SCRIPTS = {
  packageWriter: new URL('../files/packageWorker.ts', import.meta.url).href,
  reviewer: new URL('./reviewWorker.ts', import.meta.url).href,
  sizer: new URL('./sizingWorker.ts', import.meta.url).href,
  /** Beside the page: from there it may answer for all of the folder. */
  serviceWorker: 'serviceWorker.js',
};
type Script = keyof typeof SCRIPTS;

interface Policy {
  createScriptURL(name: string): string;
}
declare global {
  /** Not in every browser: one that has it starts no script whose address did not pass it. */
  var trustedTypes: { createPolicy(name: 'app', rules: Policy): Policy } | undefined;
}

const rules: Policy = {
  createScriptURL: (name) => {
    if (!Object.hasOwn(SCRIPTS, name)) throw new Error(`${name} is none of the scripts of this program`);
    return SCRIPTS[name as Script];
  },
};
let policy: Policy | undefined;

/** What may be handed to the browser as the address of a script. */
export const addressOf = (script: Script): string => {
  policy ??= globalThis.trustedTypes?.createPolicy('app', rules) ?? rules;
  return policy.createScriptURL(script);
};

export const startThread = (script: Exclude<Script, 'serviceWorker'>): Worker => new Worker(addressOf(script), { type: 'module' });
