import type { DrillRecord } from '../../engine/review/index.ts';

export const drillFileName = (id: string): string => `${id}.ohmward-drill-run.json`;

export const drillFileText = (record: DrillRecord): string => `${JSON.stringify(record, null, 1)}\n`;
