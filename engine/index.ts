/** The door of the engine: everything that the editor, the command line and the tests use. */

export * from './lineup/quantity.ts';
