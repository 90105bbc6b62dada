import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { config } from 'zod';
import { DeskApp } from './frame/desk-app.tsx';
import './styles.ts';

// Under a policy without eval the schema library must not even try to compile.
config({ jitless: true });

const place = document.getElementById('desk');
if (place) {
  createRoot(place).render(
    <StrictMode>
      <DeskApp />
    </StrictMode>,
  );
}
