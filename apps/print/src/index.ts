export type { Affine } from './geometry/affine.js';
export { type LaidTemplate, layTemplate } from './lay-template.js';
export type { PacketItem, PacketSection } from './packet/section.js';
export { type Stock, stockOf } from './paper/paper.js';
export type { PdfPage } from './pdf/page.js';
export { type CalibrationOptions, printCalibration } from './sheet/calibration.js';
export { type FilledSheet, type PrintedMeasuring, measuringPdf } from './measuring.js';
export { type PacketOptions, type PrintedPacket, packetPdf } from './print-packet.js';
export { type LoneSheet, type Press, type PrintOrder, type PrintedFile, type PrintedFiles, press } from './press.js';
export { printTemplate, templateSvg } from './print-template.js';
export { type PrintInput, type TemplateWish, printTemplates, sheets, templateFor } from './print-templates.js';
export {
  type Measured,
  type PrinterReadings,
  type ProfileRead,
  printerProfile,
  profileFaults,
} from './printer/profile.js';
export { type DrilledPlate, drillTemplate } from './template/drill.js';
export { gasketTemplate } from './template/gasket.js';
export { type StopDepth, depthTemplate } from './template/depths.js';
export { type PartFeature, partTemplate } from './template/part.js';
export type { Punch } from './template/marks.js';
export type { Template } from './template/types.js';
export type { NotPrinted, PageJson, PrintJson, PrintOptions, Printed } from './types.js';
