import { Fragment, type ReactNode } from 'react';
import { type Block, type Inline, LINK, type Prose as ProseData } from '../../engine/tree/index.ts';
import './prose.css';

/** A link in prose to a step: of the same tree where `tree` is absent, to a tree's start where `step` is. */
export type StepReference = { readonly tree?: string; readonly step?: string };

type Surroundings = {
  /** Where a link to a step goes. Without it, or where it gives nothing, the link's words are shown as text. */
  readonly stepHref?: ((to: StepReference) => string | undefined) | undefined;
  /** Pictures by their path in the prose, as data or blob addresses. Without one, the picture's words are shown. */
  readonly figures?: Readonly<Record<string, string>> | undefined;
};

type ProseProps = Surroundings & { readonly prose: ProseData; readonly className?: string };

/**
 * Prose from a tree. It is data: there is no markup in it to trust. Links go to steps, https and tel only, whatever the data holds;
 * pictures only to data addresses of pictures.
 */
export function Prose({ prose, className, ...around }: ProseProps) {
  if (prose.length === 0) return null;
  return <div className={className === undefined ? 'prose' : `prose ${className}`}>{blocks(prose, around)}</div>;
}

const keyed = <T,>(parts: readonly T[], draw: (part: T) => ReactNode): ReactNode =>
  // biome-ignore lint/suspicious/noArrayIndexKey: prose never changes its order while it is shown.
  parts.map((part, place) => <Fragment key={place}>{draw(part)}</Fragment>);

const blocks = (prose: ProseData, around: Surroundings): ReactNode => keyed(prose, (block) => drawBlock(block, around));
const inlines = (parts: readonly Inline[], around: Surroundings): ReactNode => keyed(parts, (part) => drawInline(part, around));

function drawBlock(block: Block, around: Surroundings): ReactNode {
  switch (block.type) {
    case 'paragraph':
      return <p>{inlines(block.children, around)}</p>;
    case 'heading':
      return block.depth === 3 ? <h3>{inlines(block.children, around)}</h3> : <h4>{inlines(block.children, around)}</h4>;
    case 'blockquote':
      return <blockquote>{blocks(block.children, around)}</blockquote>;
    case 'list': {
      const items = keyed(block.children, (item) => <li>{blocks(item.children, around)}</li>);
      return block.ordered ? <ol start={block.start ?? 1}>{items}</ol> : <ul>{items}</ul>;
    }
    case 'code':
      return (
        <pre>
          <code>{block.value}</code>
        </pre>
      );
    case 'thematicBreak':
      return <hr />;
  }
}

function drawInline(part: Inline, around: Surroundings): ReactNode {
  switch (part.type) {
    case 'text':
      return part.value;
    case 'inlineCode':
      return <code>{part.value}</code>;
    case 'break':
      return <br />;
    case 'emphasis':
      return <em>{inlines(part.children, around)}</em>;
    case 'strong':
      return <strong>{inlines(part.children, around)}</strong>;
    case 'link':
      return drawLink(part.url, inlines(part.children, around), around);
    case 'image': {
      const source = around.figures && Object.hasOwn(around.figures, part.url) ? around.figures[part.url] : undefined;
      return source !== undefined && /^(data:image\/(png|jpeg|svg\+xml|webp);base64,|blob:)/.test(source) ? (
        <img src={source} alt={part.alt} />
      ) : (
        <em>{part.alt}</em>
      );
    }
  }
}

function drawLink(url: string, words: ReactNode, { stepHref }: Surroundings): ReactNode {
  if (!LINK.test(url)) return words;
  if (url.startsWith('https://')) {
    return (
      <a href={url} target="_blank" rel="noreferrer noopener">
        {words}
      </a>
    );
  }
  if (url.startsWith('tel:')) return <a href={url}>{words}</a>;
  const href = stepHref?.(stepReference(url));
  return href === undefined ? <em>{words}</em> : <a href={href}>{words}</a>;
}

function stepReference(url: string): StepReference {
  const [file = '', step] = url.split('#');
  const tree = file.replace(/\.tree\.mdx$/, '');
  return { ...(tree !== '' && { tree }), ...(step !== undefined && { step }) };
}
