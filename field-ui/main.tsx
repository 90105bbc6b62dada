import './frame/styles.ts';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { config } from 'zod';
import { chooseTheme, chosenTheme } from './device/theme.ts';
import { FieldApp } from './frame/field-app.tsx';
import { makeField } from './frame/field-context.ts';

// Under a policy without eval the schema library must not even try to compile.
config({ jitless: true });
chooseTheme(chosenTheme());

const place = document.getElementById('field');
if (place) {
  createRoot(place).render(
    <StrictMode>
      <FieldApp field={makeField()} />
    </StrictMode>,
  );
}
