import '../shared/ui/no-code-from-text.ts';
import './frame/styles.ts';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { chooseTheme, chosenTheme } from './device/theme.ts';
import { FieldApp } from './frame/field-app.tsx';
import { makeField } from './frame/field-context.ts';

chooseTheme(chosenTheme());

const place = document.getElementById('field');
if (place) {
  createRoot(place).render(
    <StrictMode>
      <FieldApp field={makeField()} />
    </StrictMode>,
  );
}
