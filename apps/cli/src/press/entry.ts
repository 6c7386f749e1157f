import { parentPort } from 'node:worker_threads';
import { press } from '@fayplate/print';
import { loadLettering } from '../files/fonts.js';
import type { PressWord } from './beside.js';

/**
 * A press on a thread of its own, which prints what it is sent; an error ends it and reaches the caller.
 */
export const serve = (): void => {
  const here = press(loadLettering);
  parentPort?.on('message', (word: PressWord) => {
    if (word.kind === 'begin') here.begin(word.order);
    else void here.finish(word.sections, word.alone).then((printed) => parentPort?.postMessage(printed));
  });
};
