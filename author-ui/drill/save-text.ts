import { exportFile } from '../store/export-file.ts';

/** Gives a text to the browser to save under a name. */
export const saveText = (name: string, text: string): void => void exportFile({ path: name, text, changedAt: 0 });
