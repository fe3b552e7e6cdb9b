/** Text in a cell that a spreadsheet would take for a formula: guarded on the way out, freed on the way in, and the same text again. */

/** Full-width forms too; a leading tab or line end hides one. One that has an apostrophe already gets another, so that the way back is sure. */
const FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/u;

/** With an apostrophe ahead it stays text. */
export const harmless = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

export const asItWas = (cell: string): string => (cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell);
