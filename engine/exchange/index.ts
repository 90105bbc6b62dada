export { backEvent, CHART_EVENTS, CHART_NAMESPACE, CHART_STATES, jumpEvent, stateOf, toldEvent, wayEvents } from './chart-names.ts';
export { eventsCsv, walksCsv } from './csv-tables.ts';
export { EVENT_COLUMNS, WALK_COLUMNS } from './exchange-words.ts';
export { type BadLine, type LogFileRead, readLogFile } from './read-log-file.ts';
export { chartNumbers, scxmlChart } from './scxml-chart.ts';
export type { ExportedWalk } from './walk-rows.ts';
export { type XapiStatement, xapiStatements } from './xapi-statements.ts';
export { xesLog } from './xes-log.ts';
