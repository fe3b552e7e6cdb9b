/** Control and direction-changing characters: text from a file never drives a terminal, nor shows other than it is. */
const DRIVING = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu;

export const printable = (text: string): string => text.replace(DRIVING, '');

/** For JSON, whose strings have a way of their own to write them: nothing is lost. */
export const printableJson = (json: string): string =>
  json.replace(DRIVING, (each) => (each === '\n' ? each : `\\u${each.charCodeAt(0).toString(16).padStart(4, '0')}`));
