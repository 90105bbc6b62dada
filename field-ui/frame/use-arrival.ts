import { type RefObject, useEffect, useRef } from 'react';

/** Moves the reader to a heading whenever the place changes, as a page load would; the screen starts at its top. */
export function useArrival(place: string): RefObject<HTMLHeadingElement | null> {
  const heading = useRef<HTMLHeadingElement | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the place is what it waits for.
  useEffect(() => {
    heading.current?.closest('.walk-body, .page')?.scrollTo?.(0, 0);
    heading.current?.focus({ preventScroll: true });
  }, [place]);
  return heading;
}
