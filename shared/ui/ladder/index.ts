export { describeLadder } from './describe-ladder.ts';
export { knownFault } from './known-fault.ts';
export { LadderDrawing, type LadderDrawingProps } from './ladder-drawing.tsx';
export type { LadderLayout } from './ladder-layout.ts';
export type { Jumper, KnownFault, LadderState, MeterLeads } from './ladder-state.ts';
export { type LayoutOptions, layoutLadder } from './layout-ladder.ts';
export { stateOfSolved } from './state-of-solved.ts';
