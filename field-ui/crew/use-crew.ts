import { useSyncExternalStore } from 'react';
import { useField } from '../frame/field-context.ts';
import type { CrewState } from './crew-link.ts';

/** How this device stands to the crew. */
export function useCrew(): CrewState {
  const { crew } = useField();
  return useSyncExternalStore(crew.subscribe, crew.state);
}
