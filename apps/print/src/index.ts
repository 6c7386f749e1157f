export { type Affine } from './geometry/affine.js';
export { type PrinterProfile, type PrinterReadings, type ProfileRead, printerProfile, profileFaults } from './printer/profile.js';
export { type PrintInput, type TemplateOptions, printTemplates } from './print-templates.js';
export { type DrilledPlate, drillTemplate } from './template/drill.js';
export type { Template } from './template/types.js';
export type { NotPrinted, PageJson, PrintJson, PrintOptions, Printed } from './types.js';
