import { parentPort } from 'node:worker_threads';
import { press } from '@fayplate/print';
import { loadLettering } from '../files/fonts.js';
import type { PressWord } from './beside.js';

/**
 * A press that is told what to print, on a thread of its own; what goes wrong ends it and reaches the one who waits.
 */
export const serve = (): void => {
  const here = press(loadLettering);
  parentPort?.on('message', (word: PressWord) => {
    if (word.kind === 'begin') here.begin(word.order);
    else void here.finish(word.sections, word.alone).then((printed) => parentPort?.postMessage(printed));
  });
};
