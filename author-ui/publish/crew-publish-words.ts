import type { PublicationEntry } from '../../shared/sync/wire/edition-wire.ts';
import { momentWords } from '../crew/crew-page-words.ts';

/** `number 3, by M. Birch, 14 Jan 2026, 09:30`. */
export const publicationWords = ({ number, byName, at }: PublicationEntry): string => `number ${number}, by ${byName}, ${momentWords(at)}`;

/** What the crew walks after an edition was taken back. */
const walkedNowWords = (head: PublicationEntry | undefined): string =>
  head ? `The crew walks ${publicationWords(head)} now.` : 'The crew walks the edition that comes with this copy of Ohmward now, if there is one.';

export const withdrawnWords = (number: number, head: PublicationEntry | undefined): string =>
  `Number ${number} was taken back. Phones are told when they next reach the hub; calls walked on it stay readable. ${walkedNowWords(head)}`;

/** Of a tree that stands as an edition that was taken back. */
export const takenBackWords = (entry: PublicationEntry): string =>
  `The tree as it stands is ${publicationWords(entry)}, which ${entry.withdrawn?.by ?? 'someone'} took back: ${entry.withdrawn?.why ?? ''}`;

export const publishedWords = (number: number): string => `Published to the crew as number ${number}. Phones get it when they next reach the hub.`;
