import { keepText, keptText } from '../../shared/device/kept-text.ts';

const KEPT_NAME = 'ohmward-desk-name';

/** The name that was last given on this desk; empty before the first. */
export const keptName = (): string => keptText(KEPT_NAME);

export const keepName = (name: string): void => keepText(KEPT_NAME, name);
