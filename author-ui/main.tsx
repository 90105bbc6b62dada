import '../shared/ui/no-code-from-text.ts';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { DeskHubRoot } from './crew/desk-hub.tsx';
import { DeskApp } from './frame/desk-app.tsx';
import { browserDeskPlaces } from './store/browser-desk-places.ts';
import { DeskRoot } from './store/desk-root.tsx';
import './styles.ts';

const place = document.getElementById('desk');
if (place) {
  const places = browserDeskPlaces();
  createRoot(place).render(
    <StrictMode>
      <DeskRoot places={places}>
        <DeskHubRoot>
          <DeskApp />
        </DeskHubRoot>
      </DeskRoot>
    </StrictMode>,
  );
}
