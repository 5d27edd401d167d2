/** Faults a trainer puts in by hand, those that are on, and what the drill itself still has in store. */
import { useId, useState } from 'react';
import { EQUIPMENT_FAULTS } from '../../machines/field/outputs.ts';
import { TAG_NAMES, TAGS, type Tag } from '../../machines/field/tags.ts';
import type { SessionAsk, SessionDetail } from '../../machines/live/training.ts';
import { shiftClock } from '../format/format.ts';
import { Mark } from '../parts/mark.tsx';
import { equipmentWords, FAULT_WORDS, isEquipment, targetWords } from './words.ts';

const INSTRUMENTS = TAG_NAMES.filter((tag) => TAGS[tag].kind !== 'sight');
const HOW = ['stuck', 'dead', 'noisy', 'drift', 'span'] as const;
type How = (typeof HOW)[number];

export function HandFaults({
  detail,
  send,
}: {
  readonly detail: SessionDetail;
  readonly send: (ask: SessionAsk, done: string) => void;
}) {
  const [target, setTarget] = useState<string>(EQUIPMENT_FAULTS[0]);
  const [how, setHow] = useState<How>('stuck');
  const [perHour, setPerHour] = useState('20');
  const [offPct, setOffPct] = useState('-10');
  const id = useId();
  const clear = (what: string) =>
    send(
      {
        do: 'fault',
        fault: isEquipment(what)
          ? { of: 'equipment', equipment: what, on: false }
          : { of: 'instrument', tag: what, fault: null },
      },
      'Fault taken away.',
    );
  const put = () =>
    send(
      {
        do: 'fault',
        fault: isEquipment(target)
          ? { of: 'equipment', equipment: target, on: true }
          : {
              of: 'instrument',
              tag: target,
              fault: how,
              perHour: how === 'drift' ? Number(perHour) || 0 : 0,
              offPct: how === 'span' ? Number(offPct) || 0 : 0,
            },
      },
      'Fault put in.',
    );
  return (
    <section className="card stack" aria-labelledby={`${id}-h`}>
      <h2 id={`${id}-h`}>Faults</h2>
      {detail.faults.length === 0 ? (
        <p className="soft">No fault is on.</p>
      ) : (
        <ul className="tool-list">
          {detail.faults.map(({ target: on, fault }) => (
            <li key={on}>
              <span>
                <Mark shape="diamond" /> {targetWords(on)}{' '}
                <span className="soft">{fault === 'on' ? '' : (FAULT_WORDS[fault] ?? fault)}</span>
              </span>
              <button
                type="button"
                className="button"
                aria-label={`Take away: ${targetWords(on)}`}
                onClick={() => clear(on)}
              >
                Take away
              </button>
            </li>
          ))}
        </ul>
      )}
      <div className="start-fields">
        <div className="field">
          <label htmlFor={`${id}-t`}>What fails</label>
          <select id={`${id}-t`} value={target} onChange={(event) => setTarget(event.target.value)}>
            <optgroup label="Equipment">
              {EQUIPMENT_FAULTS.map((name) => (
                <option key={name} value={name}>
                  {equipmentWords(name)}
                </option>
              ))}
            </optgroup>
            <optgroup label="Instruments">
              {INSTRUMENTS.map((tag) => (
                <option key={tag} value={tag}>
                  {TAGS[tag].label}
                </option>
              ))}
            </optgroup>
          </select>
        </div>
        {!isEquipment(target) && (
          <div className="field">
            <label htmlFor={`${id}-f`}>How</label>
            <select id={`${id}-f`} value={how} onChange={(event) => setHow(event.target.value as How)}>
              {HOW.map((name) => (
                <option key={name} value={name}>
                  {FAULT_WORDS[name]}
                </option>
              ))}
            </select>
          </div>
        )}
        {!isEquipment(target) && how === 'drift' && (
          <div className="field">
            <label htmlFor={`${id}-p`}>By how much an hour, {TAGS[target as Tag].unit || 'units'}</label>
            <input
              id={`${id}-p`}
              type="text"
              inputMode="decimal"
              value={perHour}
              onChange={(event) => setPerHour(event.target.value)}
            />
          </div>
        )}
        {!isEquipment(target) && how === 'span' && (
          <div className="field">
            <label htmlFor={`${id}-s`}>Off by, % of what it should read</label>
            <input
              id={`${id}-s`}
              type="text"
              inputMode="decimal"
              value={offPct}
              onChange={(event) => setOffPct(event.target.value)}
            />
          </div>
        )}
      </div>
      <button type="button" className="button" onClick={put}>
        Put the fault in
      </button>
      {detail.planned.length > 0 && (
        <>
          <h3>What this drill has in store</h3>
          <ul className="planned">
            {detail.planned.map(({ text, what, fromMs, toMs }) => (
              <li key={`${text}${what}`}>
                <Mark shape={fromMs === null ? 'ring' : toMs === null ? 'diamond' : 'check'} />
                <span>
                  {text} <span className="soft">{what}</span>
                </span>
                <span className="soft num">
                  {fromMs === null
                    ? 'to come'
                    : toMs === null
                      ? `since ${shiftClock(detail.tile.startsAt, fromMs, false)}`
                      : `over at ${shiftClock(detail.tile.startsAt, toMs, false)}`}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
