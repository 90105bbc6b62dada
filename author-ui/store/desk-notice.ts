/** Something that another window did to what is open here. */
export type DeskNotice =
  /** The same file is open for editing in another window. */
  | { readonly code: 'open-elsewhere'; readonly path: string }
  /** Another window changed a file that is open here; this window shows the new text. */
  | { readonly code: 'followed'; readonly path: string }
  /** Both windows changed it at once: the other's text is under `path`, this window's under `copy`. */
  | { readonly code: 'kept-both'; readonly path: string; readonly copy: string }
  /** A step back or forward was not taken, since the file has changed in between elsewhere. */
  | { readonly code: 'not-undone'; readonly path: string; readonly label: string };

export function noticeWords(notice: DeskNotice): string {
  switch (notice.code) {
    case 'open-elsewhere':
      return `${notice.path} is open in another window too. Each window shows what the other saves; better edit in one of them.`;
    case 'followed':
      return `${notice.path} was just changed in another window. This window now shows that text.`;
    case 'kept-both':
      return `${notice.path} was changed in another window at the same moment. Both texts are kept: the other window's under its name, yours as ${notice.copy}.`;
    case 'not-undone':
      return `“${notice.label}” was left as it is: ${notice.path} has been changed in another window since.`;
  }
}
