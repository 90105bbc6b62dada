import miniScaleCss from '../../shared/ui/mini-scale.css?inline';
import proseCss from '../../shared/ui/prose.css?inline';
import themeCss from '../../shared/ui/theme.css?inline';
import { shownValue } from '../pad/typed-echo.ts';
import type { SessionState } from '../walk/walk-session.ts';
import { OUTCOME_WORDS } from '../words/outcome-words.ts';
import reportCss from './report.css?inline';

const escaped = (text: string): string => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

async function asData(address: string): Promise<string> {
  const picture = await (await fetch(address)).blob();
  return new Promise((resolve) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => resolve('');
    reader.readAsDataURL(picture);
  });
}

/** The report as one HTML file that needs nothing else: styles and photos inside, no script. */
export async function reportHtml(sheet: HTMLElement, title: string): Promise<string> {
  const copy = sheet.cloneNode(true) as HTMLElement;
  for (const image of copy.querySelectorAll('img')) if (image.src.startsWith('blob:')) image.src = await asData(image.src);
  for (const heading of copy.querySelectorAll('[tabindex]')) heading.removeAttribute('tabindex');
  const css = [themeCss, proseCss, miniScaleCss, reportCss].join('\n');
  return `<!doctype html>
<html lang="en" data-theme="sunlight">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${escaped(title)}</title><style>${css}</style></head>
<body>${copy.outerHTML}</body>
</html>
`;
}

/** The report in a few lines, for a message. */
export function reportText({ view, walk }: SessionState): string {
  const { site } = walk.snapshot.context.opened;
  const outcome = view.outcome && OUTCOME_WORDS[view.outcome];
  const readings = view.path.filter(({ judged }) => judged).map(({ title, judged }) => `${title}: ${judged ? shownValue(judged) : ''}`);
  return [
    site === undefined ? walk.edition.compiled.root.title : `${site}: ${walk.edition.compiled.root.title}`,
    outcome ? `${outcome.short}. ${outcome.long}` : 'Not closed yet.',
    ...(view.finding ? [view.finding.title] : []),
    ...readings,
  ].join('\n');
}
