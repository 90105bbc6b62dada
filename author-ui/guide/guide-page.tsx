import type { ComponentProps } from 'react';
import { useTitle } from '../frame/use-title.ts';
import Guide from './guide.mdx';

/** How to come from a circuit to a proved tree, read beside the work. */
export function GuidePage() {
  useTitle('Guide');
  return (
    <article className="guide">
      <Guide components={{ pre: Listing }} />
    </article>
  );
}

/** A listing scrolls where it is long, so the keyboard has to reach it. */
function Listing(props: ComponentProps<'pre'>) {
  // biome-ignore lint/a11y/noNoninteractiveTabindex: see above.
  return <pre tabIndex={0} {...props} />;
}
