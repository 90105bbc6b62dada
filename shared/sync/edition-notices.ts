import type { EditionList } from './wire/edition-wire.ts';

export type EditionNotice =
  /** The tree has a newer edition; this walk stays on its own. */
  | {
      readonly walk: string;
      readonly code: 'newer-edition';
      readonly hash: string;
      readonly title: string;
      readonly why?: string;
      readonly byName?: string;
    }
  /** The edition was taken back: read why, and think before going on. */
  | { readonly walk: string; readonly code: 'edition-withdrawn'; readonly why: string; readonly byName: string; readonly at: string };

/** What the crew's list means for walks that are under way. Neither notice moves a walk. */
export function editionNotices(
  walks: readonly { readonly walk: string; readonly edition: string; readonly tree: string }[],
  { entries, withdrawn }: EditionList,
): readonly EditionNotice[] {
  return walks.flatMap(({ walk, edition, tree }) => {
    const notices: EditionNotice[] = [];
    const back = withdrawn.find(({ hash }) => hash === edition);
    if (back) notices.push({ walk, code: 'edition-withdrawn', why: back.why, byName: back.byName, at: back.at });
    const current = entries.find(({ name }) => name === tree);
    if (current && current.hash !== edition) {
      const { hash, title, why, byName } = current;
      notices.push({ walk, code: 'newer-edition', hash, title, ...(why !== undefined && { why }), ...(byName !== undefined && { byName }) });
    }
    return notices;
  });
}
