import { describe, expect, it } from 'vitest';
import type { PathEntry } from '../../engine/walk/index.ts';
import { offOrder } from './off-order.ts';

const entry = (step: string, on?: string): PathEntry => ({ tree: 'dry-pad', step, title: step, kind: 'look', ...(on !== undefined && { on }) });

describe('where the tree’s order waits', () => {
  it('is nowhere while it is kept', () => {
    expect(offOrder([])).toBeUndefined();
    expect(offOrder([entry('pad', 'pad dry'), entry('cock')])).toBeUndefined();
  });

  it('is the step that the first jump left, through further jumps and steps', () => {
    const path = [entry('pad', 'jumped'), entry('valve', '0-3'), entry('contact', 'jumped'), entry('coil')];
    expect(offOrder(path)?.step).toBe('pad');
  });

  it('is nowhere once the walk stands there again, by a jump or on its way', () => {
    expect(offOrder([entry('pad', 'jumped'), entry('valve', 'jumped'), entry('pad')])).toBeUndefined();
    expect(offOrder([entry('pad', 'jumped'), entry('valve', '0-3'), entry('pad', 'pad dry'), entry('cock')])).toBeUndefined();
  });

  it('is the later step where the walk came back and left again', () => {
    expect(offOrder([entry('pad', 'jumped'), entry('valve', 'jumped'), entry('pad', 'pad dry'), entry('cock', 'jumped'), entry('coil')])?.step).toBe(
      'cock',
    );
  });

  it('is nowhere after a finding was accepted: the tree begins anew', () => {
    expect(offOrder([entry('pad', 'jumped'), entry('coil-open', 'found'), entry('pad')])).toBeUndefined();
  });
});
