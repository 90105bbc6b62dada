import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import type { Inline, Prose as ProseData } from '../../engine/tree/index.ts';
import { Prose } from './prose.tsx';
import { proseText } from './prose-text.ts';

const say = (...children: Inline[]): ProseData => [{ type: 'paragraph', children }];
const link = (url: string): ProseData => say({ type: 'link', url, children: [{ type: 'text', value: 'words' }] });
const html = (prose: ProseData, around = {}) => renderToStaticMarkup(<Prose prose={prose} {...around} />);

describe('prose on the screen', () => {
  it('shows markup in text as text', () => {
    expect(html(say({ type: 'text', value: '<img src=x onerror=alert(1)>' }))).toContain('&lt;img src=x onerror=alert(1)&gt;');
  });

  it.each(['javascript:alert(1)', 'http://example.com', 'data:text/html,x', '//example.com', 'HTTPS://x', 'file:///etc/passwd'])(
    'has no link to %s',
    (url) => {
      expect(html(link(url), { stepHref: () => '#/never' })).toBe('<div class="prose"><p>words</p></div>');
    },
  );

  it('links to https and tel', () => {
    expect(html(link('https://example.com/a'))).toContain('href="https://example.com/a"');
    expect(html(link('tel:+1 555 0100'))).toContain('href="tel:+1 555 0100"');
  });

  it('links to steps where it is told how', () => {
    const stepHref = ({ tree, step }: { tree?: string; step?: string }) => `#/${tree ?? 'here'}/${step ?? 'start'}`;
    expect(html(link('#weak-supply'), { stepHref })).toContain('href="#/here/weak-supply"');
    expect(html(link('no-heat.tree.mdx#start-here'), { stepHref })).toContain('href="#/no-heat/start-here"');
    expect(html(link('no-heat.tree.mdx'), { stepHref })).toContain('href="#/no-heat/start"');
    expect(html(link('#weak-supply'))).not.toContain('href');
  });

  it('shows pictures that came with the edition, and their words where none did', () => {
    const picture = say({ type: 'image', url: 'figures/valve.png', alt: 'The valve' });
    expect(html(picture, { figures: { 'figures/valve.png': 'data:image/png;base64,AAAA' } })).toContain('src="data:image/png;base64,AAAA"');
    expect(html(picture, { figures: { 'figures/valve.png': 'https://example.com/x.png' } })).not.toContain('<img');
    expect(html(picture)).toContain('The valve');
  });
});

describe('prose as words', () => {
  it('ends what has no full stop, so that lists can be spoken', () => {
    const item = (value: string) => ({ type: 'listItem' as const, children: say({ type: 'text', value }) });
    expect(
      proseText([...say({ type: 'text', value: 'First:' }), { type: 'list', ordered: false, children: [item('red on R'), item('black on C')] }]),
    ).toBe('First: red on R. black on C.');
  });
});
