export type * from './types.js';
export type { Approach } from './travel/way.js';
export { machinistTable } from './table/table.js';
export { tableJson } from './table/json.js';
export { csvText, tableCsv } from './table/csv.js';
export { tableReport } from './table/report.js';
export { type PlaceColumns, placeColumns } from './frame/columns.js';
export { type SolidMade, stepSolid } from './step/solid.js';
