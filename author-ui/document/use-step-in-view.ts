import { useEffect, useState } from 'react';
import type { Tree } from '../../engine/tree/index.ts';
import { stepElementId } from './step-element.ts';

/** The step that is being read: the last one whose section has begun in the upper part of the window. */
export function useStepInView(tree: Tree): string | undefined {
  const [inView, setInView] = useState<string>();

  useEffect(() => {
    const sections = tree.steps.map(({ id }) => ({ id, element: document.getElementById(stepElementId(id)) }));
    let waiting = 0;
    const look = (): void => {
      waiting = 0;
      const line = window.innerHeight * 0.3;
      setInView(sections.findLast(({ element }) => element && element.getBoundingClientRect().top < line)?.id);
    };
    const later = (): void => {
      waiting ||= requestAnimationFrame(look);
    };
    look();
    window.addEventListener('scroll', later, { passive: true });
    window.addEventListener('resize', later);
    return () => {
      cancelAnimationFrame(waiting);
      window.removeEventListener('scroll', later);
      window.removeEventListener('resize', later);
    };
  }, [tree]);

  return inView;
}
