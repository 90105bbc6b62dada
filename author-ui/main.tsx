import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { config } from 'zod';
import { DeskApp } from './frame/desk-app.tsx';
import { browserDeskStore } from './store/browser-desk-store.ts';
import { DeskStoreContext } from './store/use-desk-store.ts';
import './styles.ts';

// Under a policy without eval the schema library must not even try to compile.
config({ jitless: true });

const place = document.getElementById('desk');
if (place) {
  const store = browserDeskStore();
  createRoot(place).render(
    <StrictMode>
      <DeskStoreContext value={store}>
        <DeskApp />
      </DeskStoreContext>
    </StrictMode>,
  );
}
