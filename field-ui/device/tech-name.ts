import { keepText, keptText } from '../../shared/device/kept-text.ts';

const KEY = 'ohmward-tech';

/** The name that the tech gave last, so that it is typed once a phone. */
export const keptTechName = (): string => keptText(KEY);

export const keepTechName = (name: string): void => keepText(KEY, name);
