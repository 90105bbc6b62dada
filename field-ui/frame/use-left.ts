import { type RefObject, useEffect, useRef } from 'react';

/** Whether the screen has been left. What ends after that must not carry the tech away from where they are by then. */
export function useLeft(): RefObject<boolean> {
  const left = useRef(false);
  useEffect(() => {
    left.current = false;
    return () => {
      left.current = true;
    };
  }, []);
  return left;
}
