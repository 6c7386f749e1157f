export type * from './source.js';
export type * from './threads/types.js';
export { type FormName, type ThreadForm, threadForms } from './threads/forms.js';
export { threads } from './threads/list.js';
export { type ClassLimits, classLimits } from './threads/limits.js';
export { parseThread } from './threads/parse.js';
