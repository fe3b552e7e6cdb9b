import { type Say, sayIn, vocabularyOf } from '../../engine/index.ts';
import { type EditorState, useEditor } from './editorStore.ts';

/** Names of fields, headings and commands in the words of the open project. */
const sayOfState = ({ lineUp }: Pick<EditorState, 'lineUp'>): Say => sayIn(lineUp ? vocabularyOf(lineUp.project) : 'us');

export const useSay = (): Say => useEditor(sayOfState);
/** The same where nothing is painted. */
export const sayNow = (): Say => sayOfState(useEditor.getState());
