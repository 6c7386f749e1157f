import { Refusal, refusalWords } from '@fayplate/study';
import { answerAsk } from './answers.js';
import type { Ask, Part, Screen, Word } from './protocol.js';

/** The little of a worker's scope that is used. */
interface Scope {
  readonly postMessage: (word: Word, handed?: readonly ArrayBuffer[]) => void;
  readonly addEventListener: (kind: 'message', listen: (event: { readonly data: Ask | Newer }) => void) => void;
}
interface Newer {
  readonly id: number;
  readonly newer: true;
}

const scope = globalThis as unknown as Scope;
/** Progress is reported at most this often, ms. */
const EVERY = 100;

/** The bytes of files are handed over, not copied: this worker needs them no more. */
const handed = (part: Part): readonly ArrayBuffer[] =>
  part.kind === 'files'
    ? [
        ...new Set(
          [part.zip, ...part.files.map((f) => f.bytes)].flatMap((b) => (b === null ? [] : [b.buffer as ArrayBuffer])),
        ),
      ]
    : [];

let newest = 0;
let waiting: Ask | null = null;
let busy = false;

/** Ends the pause that is being made. */
let wake: () => void = () => undefined;

/** Lets messages that have come in be heard. */
const breath = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', () => {
      port1.close();
      resolve();
    });
    port1.start();
    port2.postMessage(null);
  });

const work = async (ask: Ask): Promise<void> => {
  const { id } = ask;
  let told = 0;
  try {
    await answerAsk(ask, {
      tell: (part) => scope.postMessage({ id, part }, handed(part)),
      go: async (pause = 0) => {
        await breath();
        if (pause > 0 && newest <= id)
          await new Promise<void>((resolve) => {
            const rest = setTimeout(resolve, pause);
            wake = () => {
              clearTimeout(rest);
              resolve();
            };
          });
        return newest <= id;
      },
      progress: (what) => (done, of) => {
        const now = performance.now();
        if (now - told < EVERY) return;
        told = now;
        scope.postMessage({ id, progress: { what, share: of === 0 ? 0 : done / of } });
      },
    });
    scope.postMessage({ id, done: true });
  } catch (error) {
    if (error instanceof Refusal) {
      const asked = ask.what.screen;
      const screen = asked === 'schema' || asked === 'look' ? 'files' : (asked satisfies Screen | 'files' | 'new');
      scope.postMessage({ id, part: { kind: 'refused', screen, words: refusalWords(error) } });
      scope.postMessage({ id, done: true });
    } else scope.postMessage({ id, broke: error instanceof Error ? error.message : String(error) });
  }
};

const next = async (): Promise<void> => {
  if (busy) return;
  busy = true;
  while (waiting !== null) {
    const ask: Ask = waiting;
    waiting = null;
    await work(ask);
  }
  busy = false;
};

scope.addEventListener('message', ({ data }) => {
  newest = Math.max(newest, data.id);
  wake();
  if ('newer' in data) return;
  waiting = data;
  void next();
});
scope.postMessage({ ready: true });
