import type { Step } from '../../tree/index.ts';

/** Whether a step only makes ready: an act, or a reading that must show points dead. */
export const isPreparing = (step: Step): boolean => step.kind === 'act' || (step.kind === 'reading' && step.proves === 'dead');
