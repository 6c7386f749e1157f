import * as z from 'zod/mini';
import { schemaIn } from './schema/file.js';

/** JSON Schema (2020-12) of the job file for editors: the one schema that files are read with, before its words are read. */
export const jobSchema = (): object => ({
  ...z.toJSONSchema(schemaIn('mm'), { io: 'input', target: 'draft-2020-12' }),
  title: 'Fayplate job',
});
