import { parentPort } from 'node:worker_threads';
import type { PressWord } from './beside.js';
import { pressHere } from './here.js';

/** A press that is told what to print, on a thread of its own; what goes wrong ends it and reaches the one who waits. */
export const serve = (): void => {
  const press = pressHere();
  parentPort?.on('message', (word: PressWord) => {
    if (word.kind === 'begin') press.begin(word.order);
    else void press.finish(word.sections).then((printed) => parentPort?.postMessage(printed));
  });
};
