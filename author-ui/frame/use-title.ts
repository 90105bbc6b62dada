import { useEffect } from 'react';

/** Names the window after what it shows. */
export function useTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} · Ohmward desk`;
    return () => {
      document.title = 'Ohmward desk';
    };
  }, [title]);
}
