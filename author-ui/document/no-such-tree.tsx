import { shelfAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';

/** An address that names a tree which the folder does not have. */
export function NoSuchTree({ name }: { readonly name: string }) {
  return (
    <Notice title="There is no such tree">
      <p>
        The folder <code>trees</code> has no <code>{name}.tree.mdx</code>. It may have been renamed.
      </p>
      <a className="button" href={shelfAddress}>
        Go to the shelf
      </a>
    </Notice>
  );
}
