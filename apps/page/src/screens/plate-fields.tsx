import type { JSX } from 'preact';
import { useApp, useAppState } from '../app/use.js';
import { faceNames, featuresOf, keysAt, listAt, typedAt, unitsOf } from '../edit/peek.js';
import { Choice, Field, Fold } from '../parts/field.js';

const same = (...words: readonly string[]): readonly (readonly [string, string])[] => words.map((w) => [w, w] as const);

/** How one face is located on the plate and fastened to it. */
const FaceOnPlate = ({ face }: { readonly face: string }): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const at = (...more: readonly string[]): readonly string[] => ['plate', ...more];
  const locate = at('locate', face);
  const as = typedAt(history.text, at('fasten', face, 'as'));
  const located = keysAt(history.text, locate);
  const how = located.includes('register') ? 'register' : located.includes('dowels') ? 'dowels' : '';
  const head = ['nut', 'cap screw', 'countersunk screw'].find(
    (k) => typedAt(history.text, at('fasten', face, k)) !== '',
  );
  const setHead = (value: string): void => {
    const [kind = '', sunk = ''] = value.split(': ');
    app.putAll([
      ...['nut', 'cap screw', 'countersunk screw'].map((k) => ({ path: at('fasten', face, k), value: '' })),
      ...(value === '' ? [] : [{ path: at('fasten', face, kind), value: sunk }]),
    ]);
  };
  const inches = unitsOf(history.text) === 'in';
  return (
    <Fold title={`The ${face} on the plate`}>
      <div class="fields">
        <Choice
          label={`${face}: made concentric by`}
          path={locate}
          value={how}
          of={[
            ['', 'its fasteners alone'],
            ['register', 'a register on its centre'],
            ['dowels', 'dowels'],
          ]}
          onChoose={(value) =>
            app.putAll([
              { path: locate, value: '' },
              ...(value === 'register'
                ? [{ path: locate, value: { register: inches ? '2.000' : '50', depth: inches ? '1/8' : '3' } }]
                : value === 'dowels'
                  ? [{ path: locate, value: { dowels: '2', diameter: '8 mm' } }]
                  : []),
            ])
          }
        />
        {how === 'register' ? (
          <>
            <Field label={`${face}: register diameter`} path={[...locate, 'register']} />
            <Field label={`${face}: register depth`} path={[...locate, 'depth']} hint="not said" />
          </>
        ) : null}
        {how === 'dowels' ? (
          <Field label={`${face}: dowel diameter`} path={[...locate, 'diameter']} hint={inches ? '5/16' : '8 mm'} />
        ) : null}
        <Choice
          label={`${face}: fastened`}
          path={at('fasten', face, 'as')}
          of={[
            ['', 'not said'],
            ['clearance', 'clearance: fasteners pass the plate'],
            ['tapped', 'tapped: bolts go into the plate'],
            ['set stud', 'set stud: studs stand in the plate'],
          ]}
        />
        {as === 'clearance' ? (
          <>
            <Choice
              label={`${face}: fit of the holes`}
              path={at('fasten', face, 'fit')}
              of={[['', 'normal (not said)'], ...same('close', 'normal', 'loose')]}
            />
            <Choice
              label={`${face}: what sits on the plate`}
              path={at('fasten', face)}
              value={head === undefined ? '' : `${head}: ${typedAt(history.text, at('fasten', face, head))}`}
              of={[
                ['', 'nothing said'],
                ['nut: plain', 'a nut'],
                ['nut: counterbored', 'a nut, counterbored'],
                ['nut: spotfaced', 'a nut, spotfaced'],
                ['cap screw: plain', 'a cap screw'],
                ['cap screw: counterbored', 'a cap screw, counterbored'],
                ['countersunk screw: countersunk', 'a countersunk screw'],
              ]}
              onChoose={setHead}
            />
          </>
        ) : null}
        {as === '' ? null : (
          <>
            <Field
              label={`${face}: thread`}
              path={at('fasten', face, 'thread')}
              hint="each feature’s own"
              offers={['M6', 'M8', 'M10', 'M12', '3/8-16 UNC', '1/2-13 UNC']}
            />
            {as === 'clearance' ? null : (
              <Field label={`${face}: thread engaged`} path={at('fasten', face, 'engagement')} hint="1.5 d" />
            )}
          </>
        )}
      </div>
    </Fold>
  );
};

/** The plate's sizes, each in a box. */
export const PlateFields = (): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const { text } = history;
  const between = listAt(text, ['plate', 'between']);
  const shape = typedAt(text, ['plate', 'outline']) || typedAt(text, ['plate', 'outline', 'shape']);
  const hasStack = keysAt(text, ['stack']).length > 0;
  const inches = unitsOf(text) === 'in';
  return (
    <>
      <Fold title="The plate itself" open>
        <div class="fields">
          <Field
            label="Thickness"
            path={['plate', 'thickness']}
            hint={inches ? '3/4' : '20 mm'}
            offers={hasStack ? ['from stack'] : []}
          />
          <Field
            label="Material"
            path={['plate', 'material']}
            hint="not said"
            offers={['aluminium', 'mild steel', 'cast iron']}
          />
          <Field label="Bore" path={['plate', 'bore', 'diameter']} hint="no bore" />
          <Choice
            label="Outline"
            path={['plate', 'outline', 'shape']}
            value={shape}
            of={[
              ['', 'not said'],
              ['follow', 'follows the holes'],
              ['round', 'round'],
              ['rectangle', 'rectangle'],
            ]}
            onChoose={(value) => {
              const margin = typedAt(text, ['plate', 'outline', 'margin']) || '12 mm';
              app.putAll([
                { path: ['plate', 'outline'], value: '' },
                ...(value === '' ? [] : [{ path: ['plate', 'outline'], value: { shape: value, margin } }]),
              ]);
            }}
          />
          <Field label="Metal kept around the holes" path={['plate', 'outline', 'margin']} hint="not said" />
          <Field
            label="Least metal between cuts"
            path={['plate', 'limits', 'web']}
            hint={inches ? '0.118 in' : '3 mm'}
          />
          <Field label="Least centre to edge" path={['plate', 'limits', 'edge']} hint="1.5 d" />
          <Field
            label="± of a drilled hole’s place"
            path={['plate', 'drilling']}
            hint={inches ? '± 0.020 in' : '± 0.5 mm'}
            help={
              'A read-out holds about ' +
              (inches ? '± 0.002 in, paper and punch ± 0.020 in' : '± 0.05 mm, paper and punch ± 0.5 mm') +
              ' (common practice).'
            }
          />
        </div>
      </Fold>
      {between.map((face) => (
        <FaceOnPlate key={face} face={face} />
      ))}
    </>
  );
};

/** The plate that is begun where the job has none: what the starter job proposes. */
export const BeginPlate = (): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const { text } = history;
  const names = faceNames(text);
  const [a = '', b = ''] = names;
  const studs = (face: string): boolean => featuresOf(text, face).some((f) => f.kind === 'stud');
  return (
    <div class="card">
      <p>
        The plate joins two parts. It can be designed when the readings fix every feature of both: the first lies on
        side A, the second on side B.
      </p>
      {names.length < 2 ? (
        <p>This job has {names.length === 1 ? 'one part' : 'no part'} so far. Add the other in Measure.</p>
      ) : (
        <button
          type="button"
          class="main"
          onClick={() =>
            app.put(['plate'], {
              between: [a, b],
              material: 'aluminium',
              thickness: keysAt(text, ['stack']).length > 0 ? 'from stack' : unitsOf(text) === 'in' ? '3/4' : '20',
              fasten: Object.fromEntries(
                [a, b].map((face) => [
                  face,
                  studs(face)
                    ? { as: 'clearance', fit: 'normal', nut: 'counterbored' }
                    : { as: 'tapped', thread: 'M10', engagement: '1.5 d' },
                ]),
              ),
              outline: { shape: 'follow', margin: '12 mm' },
              drilling: '± 0.05 mm',
            })
          }
        >
          Begin the plate between {a} and {b}
        </button>
      )}
    </div>
  );
};
