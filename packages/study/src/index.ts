export { type Answer, type JobCommand, answer } from './answer.js';
export { plateWords } from './commands/plate.js';
export { type LookedWords, lookWords, wordLines } from './look-words.js';
export { standardFaceSvg } from './look-picture.js';
export type { MadeFile } from './command.js';
export { type Format, type MachineFormat, formats, isOurs, machineFormats } from './formats.js';
export type { Options } from './options.js';
export { printerText } from './printers.js';
export type {
  DrawnTemplate,
  NotPrinted,
  Press,
  PrintInput,
  PrintOrder,
  PrintSection,
  PrintSettings,
  PrintedFiles,
  PrintedSheets,
  Sheets,
  TemplateKind,
} from './printing.js';
export { printSettings } from './print-settings.js';
export { Refusal } from './refusal.js';
export { type PartAnswers, type StarterAnswers, usualCaliper } from './starter/answers.js';
export { MOST, clocksOf, dialOf } from './starter/clocks.js';
export {
  caliperOf,
  describePart,
  instrumentsOf,
  standingOf,
  fastenersOf,
  fasteningOf,
  instrumentOf,
  jobNameOf,
  middleOf,
  nameOf,
  refuseSameName,
} from './starter/describe.js';
export { idsOf, letterOf, starterJob } from './starter/write.js';
export { restReport } from './rest.js';
export type { Study, StudyOptions, Progress } from './types.js';
export { studyOf } from './study.js';
export { refusalWords } from './verdict-words.js';
export type { World } from './world.js';
