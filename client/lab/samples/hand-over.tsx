/** Custody: a sample goes from one named person to another. */
import { type FormEvent, useId, useState } from 'react';
import type { LabSample } from '../../../machines/lab/state.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { Refusal } from '../../parts/refusal.tsx';
import type { Lab } from '../data.ts';
import { holderOf } from '../today/agenda.ts';
import { personName, whenWords } from '../words.ts';

export function HandOver({
  lab,
  lot,
  sample,
}: {
  readonly lab: Lab;
  readonly lot: string;
  readonly sample: LabSample;
}) {
  const id = useId();
  const people = useLive((live) => live.people);
  const asked = useCommand();
  const from = holderOf(sample) ?? '';
  const [to, setTo] = useState('');
  const give = (event: FormEvent) => {
    event.preventDefault();
    if (to === '') {
      asked.explain(['Choose who takes it.']);
      return;
    }
    void asked
      .ask(
        () => lab.ask({ do: 'handOverSample', lot, sample: sample.n, from, to, remark: '' }),
        `Handed over to ${personName(people, to)}.`,
      )
      .then((done) => done && setTo(''));
  };
  return (
    <section className="card stack" aria-labelledby={`${id}-head`}>
      <h3 id={`${id}-head`}>Custody</h3>
      {sample.custody.length > 0 && (
        <ol className="timeline">
          {sample.custody.map((one) => (
            <li key={`${one.at}${one.to}`}>
              <span className="num soft">{whenWords(one.at)}</span> {personName(people, one.from)} gave it to{' '}
              {personName(people, one.to)}
              {one.remark !== '' && `: ${one.remark}`}
            </li>
          ))}
        </ol>
      )}
      <form className="row" onSubmit={give}>
        <label htmlFor={`${id}-to`}>{personName(people, from)} hands it to</label>
        <select id={`${id}-to`} className="narrow" value={to} onChange={(event) => setTo(event.target.value)}>
          <option value="">choose</option>
          {people
            .filter((person) => person.id !== from)
            .map((person) => (
              <option key={person.id} value={person.id}>
                {person.name}, {person.role}
              </option>
            ))}
        </select>
        <button type="submit" className="button" aria-busy={asked.waiting}>
          Hand it over
        </button>
      </form>
      <Refusal because={asked.refusal} onClose={asked.clear} />
    </section>
  );
}
