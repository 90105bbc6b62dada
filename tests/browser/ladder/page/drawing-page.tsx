/// <reference types="vite/client" />
import './no-code-from-text.ts';
import '@fontsource/b612/400.css';
import '@fontsource/b612/700.css';
import '../../../../shared/ui/theme.css';
import './drawing-page.css';
import { createRoot } from 'react-dom/client';
import { LadderDrawing, type LadderDrawingProps } from '../../../../shared/ui/ladder/index.ts';

/** What a test asks to see. */
export type Drawing = Omit<LadderDrawingProps, 'onPickTerminal'> & { readonly picks?: boolean };

const { picks, ...drawing }: Drawing = await (await fetch('/drawing.json')).json();
const say = (terminal: string): void => {
  document.title = `picked ${terminal}`;
};
const element = document.getElementById('drawing');
if (element) createRoot(element).render(<LadderDrawing {...drawing} onPickTerminal={picks ? say : undefined} />);
