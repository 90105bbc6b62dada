import type { WalkOutcome } from '../../engine/walk/index.ts';

export const OUTCOME_WORDS: Readonly<Record<WalkOutcome, { readonly short: string; readonly long: string }>> = {
  fixed: { short: 'Fixed', long: 'Repaired, and the complaint is gone.' },
  'nothing-wrong': { short: 'Nothing wrong', long: 'No fault was found, and the complaint did not show when it was tried again.' },
  'not-repaired': { short: 'Not repaired yet', long: 'The fault was found. The repair is still to be done.' },
  'not-fixed': { short: 'Not fixed', long: 'The complaint was still there when it was tried again.' },
  'handed-off': { short: 'Handed over', long: 'Not solved on this call. It was handed over.' },
};
