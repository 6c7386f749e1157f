import type { JSX, TargetedEvent, TargetedInputEvent, TargetedSubmitEvent } from 'preact';
import { useState } from 'preact/hooks';
import { useApp } from '../app/use.js';
import { Refused } from '../parts/standing.js';
import type { PartWish } from '../work/protocol.js';

type Parts = readonly [PartWish, PartWish];

const PartFields = ({
  n,
  part,
  set,
  standard,
  setStandard,
}: {
  readonly standard: string;
  readonly setStandard: (name: string) => void;
  readonly n: 1 | 2;
  readonly part: PartWish;
  readonly set: (part: PartWish) => void;
}): JSX.Element => {
  const input = (name: 'name' | 'clocks', label: string, hint: string): JSX.Element => (
    <div class="field">
      <label for={`part${n}-${name}`}>{label}</label>
      <input
        id={`part${n}-${name}`}
        type="text"
        autocomplete="off"
        value={part[name]}
        placeholder={hint}
        onInput={(event: TargetedInputEvent<HTMLInputElement>) => set({ ...part, [name]: event.currentTarget.value })}
      />
    </div>
  );
  const choice = (
    name: 'middle' | 'fasteners',
    label: string,
    of: readonly (readonly [string, string])[],
  ): JSX.Element => (
    <div class="field">
      <label for={`part${n}-${name}`}>{label}</label>
      <select
        id={`part${n}-${name}`}
        value={part[name]}
        onChange={(event: TargetedEvent<HTMLSelectElement>) => set({ ...part, [name]: event.currentTarget.value })}
      >
        {of.map(([value, word]) => (
          <option key={value} value={value}>
            {word}
          </option>
        ))}
      </select>
    </div>
  );
  return (
    <fieldset>
      <legend>{n === 1 ? 'The first part, on side A' : 'The second part, on side B'}</legend>
      <div class="fields">
        {input('name', `Name of part ${n}`, n === 1 ? 'pump' : 'motor')}
        <div class="field">
          <label for={`part${n}-standard`}>{`Standard of part ${n}, if it has one`}</label>
          <input
            id={`part${n}-standard`}
            type="text"
            autocomplete="off"
            value={standard}
            placeholder="IEC FF165, 56C, SAE B"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => setStandard(event.currentTarget.value)}
          />
        </div>
        {standard.trim() === '' ? (
          <>
            {choice('middle', `In the middle of part ${n}`, [
              ['spigot', 'a spigot stands out'],
              ['bore', 'a bore goes in'],
              ['none', 'nothing round'],
            ])}
            {choice('fasteners', `Around it on part ${n}`, [
              ['studs', 'studs'],
              ['holes', 'holes'],
            ])}
            {input('clocks', `Where on the clock, part ${n}`, '12 2 4:30 7')}
          </>
        ) : (
          <p class="help">Its sizes come from the standard. Readings that you take test it.</p>
        )}
      </div>
    </fieldset>
  );
};

/** A new job: two parts, roughly as the eye sees them. What to read, and in which order, follows from that. */
export const NewJob = (): JSX.Element => {
  const app = useApp();
  const [job, setJob] = useState('');
  const [units, setUnits] = useState<'in' | 'mm'>('mm');
  const [caliper, setCaliper] = useState('');
  const [parts, setParts] = useState<Parts>([
    { name: '', middle: 'spigot', fasteners: 'studs', clocks: '' },
    { name: '', middle: 'spigot', fasteners: 'holes', clocks: '' },
  ]);
  const [standards, setStandards] = useState<readonly [string, string]>(['', '']);
  return (
    <form
      class="card new"
      aria-label="A new job"
      onSubmit={(event: TargetedSubmitEvent<HTMLFormElement>) => {
        event.preventDefault();
        const names = [parts[0].name.trim() || 'pump', parts[1].name.trim() || 'motor'] as const;
        const made = standards.map((s) => s.trim());
        // A standard has its own features: what is sketched in their place is taken out again.
        const sketched = (i: 0 | 1): PartWish =>
          made[i] === '' ? parts[i] : { ...parts[i], middle: 'spigot', clocks: '12 3 6 9' };
        app.begin(
          {
            job: job.trim() === '' ? 'New job' : job.trim(),
            units,
            caliper: caliper.trim() === '' ? (units === 'in' ? '± 0.002 in' : '± 0.05 mm') : caliper,
            parts: [
              { ...sketched(0), name: names[0] },
              { ...sketched(1), name: names[1] },
            ],
          },
          Object.fromEntries(names.flatMap((name, i) => ((made[i] ?? '') === '' ? [] : [[name, made[i] ?? '']]))),
        );
      }}
    >
      <h2>A new job</h2>
      <div class="fields">
        <div class="field wide">
          <label for="new-job">Name of the job</label>
          <input
            id="new-job"
            type="text"
            autocomplete="off"
            value={job}
            placeholder="New job"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => setJob(event.currentTarget.value)}
          />
        </div>
        <div class="field">
          <label for="new-units">A number without a unit is in</label>
          <select
            id="new-units"
            value={units}
            onChange={(event: TargetedEvent<HTMLSelectElement>) => setUnits(event.currentTarget.value as 'in' | 'mm')}
          >
            <option value="mm">millimetres</option>
            <option value="in">inches</option>
          </select>
        </div>
        <div class="field">
          <label for="new-caliper">± of a caliper reading</label>
          <input
            id="new-caliper"
            type="text"
            autocomplete="off"
            value={caliper}
            placeholder={units === 'in' ? '± 0.002 in' : '± 0.05 mm'}
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => setCaliper(event.currentTarget.value)}
          />
        </div>
      </div>
      <PartFields
        n={1}
        part={parts[0]}
        set={(part) => setParts([part, parts[1]])}
        standard={standards[0]}
        setStandard={(name) => setStandards([name, standards[1]])}
      />
      <PartFields
        n={2}
        part={parts[1]}
        set={(part) => setParts([parts[0], part])}
        standard={standards[1]}
        setStandard={(name) => setStandards([standards[0], name])}
      />
      <Refused screen="new" />
      <div class="row">
        <button type="submit" class="main">
          Begin
        </button>
        <button type="button" onClick={() => app.set({ newShown: false })}>
          Back to the job
        </button>
      </div>
    </form>
  );
};
