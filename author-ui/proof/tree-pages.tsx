import { editAddress, pictureAddress, proofAddress, publishAddress, sheetAddress, treeAddress } from '../desk-route.ts';

type TreePagesProps = { readonly name: string; readonly at: 'tree' | 'edit' | 'proof' | 'publish' | 'sheet' | 'picture' };

/** The pages of one tree: to read it, to write it, to prove it, to print it, to publish it, to see how its calls went. */
export function TreePages({ name, at }: TreePagesProps) {
  const pages = [
    { page: 'tree', href: treeAddress(name), text: 'Read' },
    { page: 'edit', href: editAddress(name), text: 'Edit' },
    { page: 'proof', href: proofAddress(name), text: 'Proof' },
    { page: 'sheet', href: sheetAddress(name), text: 'Sheet' },
    { page: 'publish', href: publishAddress(name), text: 'Publish' },
    { page: 'picture', href: pictureAddress(name), text: 'Its calls' },
  ] as const;
  return (
    <nav className="tree-pages" aria-label="Pages of this tree">
      {pages.map(({ page, href, text }) => (
        <a key={page} href={href} aria-current={page === at ? 'page' : undefined}>
          {text}
        </a>
      ))}
    </nav>
  );
}
