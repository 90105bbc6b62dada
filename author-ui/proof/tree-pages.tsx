import { editAddress, proofAddress, publishAddress, treeAddress } from '../desk-route.ts';

type TreePagesProps = { readonly name: string; readonly at: 'tree' | 'edit' | 'proof' | 'publish' };

/** The pages of one tree: to write it, to prove it, to publish it. */
export function TreePages({ name, at }: TreePagesProps) {
  const pages = [
    { page: 'tree', href: treeAddress(name), text: 'Read' },
    { page: 'edit', href: editAddress(name), text: 'Edit' },
    { page: 'proof', href: proofAddress(name), text: 'Proof' },
    { page: 'publish', href: publishAddress(name), text: 'Publish' },
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
