import { type ComponentType, createContext, useContext } from 'react';
import type { LookStep, ReadingStep } from '../../engine/tree/index.ts';

/** What stands in for the house where there is none: a meter to read with, and what would be seen. */
export type StandIns = {
  readonly Meter?: ComponentType<{ readonly step: ReadingStep }>;
  readonly Sight?: ComponentType<{ readonly step: LookStep }>;
};

const NONE: StandIns = {};

export const StandInContext = createContext<StandIns>(NONE);

export const useStandIns = (): StandIns => useContext(StandInContext);
