import type { FaceView } from '../work/shown.js';
import type { Part } from '../work/protocol.js';
import { type Answers, type State, answerOf } from './state.js';

const without = (refused: Answers['refused'], screen: keyof Answers['refused']): Answers['refused'] =>
  Object.fromEntries(Object.entries(refused).filter(([s]) => s !== screen));

/** What only follows a key leaves the last words about the readings standing until they are weighed again. */
const withLast = (view: FaceView, last: FaceView | undefined): FaceView =>
  view.weighed || last === undefined
    ? view
    : {
        ...view,
        suspects: last.suspects,
        settles: last.settles,
        report: last.report,
        enough: last.enough,
        ok: last.ok,
      };

/** The state after one piece of an answer. */
export const received = (state: State, part: Part): State => {
  const { answers } = state;
  const now = (changes: Partial<Answers>): State => ({ ...state, answers: { ...answers, ...changes } });
  switch (part.kind) {
    case 'read':
      return now({ faults: part.faults, warnings: part.warnings, missing: part.lists, refused: {} });
    case 'face':
      return now({
        faces: { ...answers.faces, [part.view.name]: withLast(part.view, answerOf(answers.faces, part.view.name)) },
      });
    case 'plan':
      return now({ plans: { ...answers.plans, [part.face]: part.plan } });
    case 'improving':
      return now({ improving: { ...answers.improving, [part.face]: part.improving } });
    case 'layout':
      return now({ layouts: { ...answers.layouts, [part.face]: part.view } });
    case 'stack':
      return now({ stack: part.view, refused: without(answers.refused, 'stack') });
    case 'plate':
      return now({ plate: part.view, refused: without(answers.refused, 'plate') });
    case 'make':
      return now({ make: part.view, refused: without(answers.refused, 'make') });
    case 'prove':
      return now({ prove: part.view, refused: without(answers.refused, 'prove') });
    case 'refused':
      return now({ refused: { ...answers.refused, [part.screen]: part.words } });
    case 'files':
      return {
        ...state,
        files: {
          which: part.which,
          report: part.report,
          files: part.files,
          sound: part.sound,
          warnings: part.warnings,
          text: state.history.text,
        },
      };
    case 'schema':
      return { ...state, schema: part.schema, words: part.words };
    case 'looked':
      return { ...state, looked: part.view };
    case 'begun':
      return state;
  }
};
