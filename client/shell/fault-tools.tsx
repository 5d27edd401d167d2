/** Faults a trainer or supervisor can put into the simulated plant, and those that are on. */
import { useId, useState } from 'react';
import { EQUIPMENT_FAULTS, type EquipmentFault } from '../../machines/field/outputs.ts';
import { TAG_NAMES, TAGS, type Tag } from '../../machines/field/tags.ts';
import type { PlantView } from '../../machines/line/view.types.ts';
import { mayGive } from '../../machines/people/permissions.ts';
import { useLive } from '../live/store.ts';
import type { Give } from './tools-dialog.tsx';

const NONE: PlantView['faults'] = [];
const FAULTS = ['stuck', 'dead', 'noisy', 'drift'] as const;
type Fault = (typeof FAULTS)[number];
const DRIFT_PER_HOUR = 20;
const HOW_WORDS: { readonly [K in Fault | 'span']: string } = {
  stuck: 'stuck at its reading',
  dead: 'no signal',
  noisy: 'noisy',
  drift: 'drifts',
  span: 'off by a share of what it reads',
};

const FAULT_WORDS: { readonly [K in EquipmentFault]: string } = {
  hoodFanStopped: 'Hood fan stopped',
  drumFanStopped: 'Dryer fan stopped',
  binderValveLeaking: 'Binder valve leaking',
  fuelValveLeaking: 'Fuel valve leaking',
  oilPumpStopped: 'Thermal-oil pump stopped',
  flameWillNotLight: 'Flame will not light',
  powerDip: 'Supply lost',
  wrongBinderInTruck: 'Next truck carries the other binder',
};

const isTag = (name: string): name is Tag => name in TAGS;
const isEquipment = (name: string): name is EquipmentFault => name in FAULT_WORDS;
const wordsFor = (target: string): string =>
  isTag(target) ? TAGS[target].label : isEquipment(target) ? FAULT_WORDS[target] : target;

/** Emergency stop and what a person sees by eye are no instruments that fail this way. */
const INSTRUMENTS = TAG_NAMES.filter((tag) => TAGS[tag].kind !== 'sight');

function FaultsNow({ give }: { readonly give: Give }) {
  const faults = useLive((live) => live.view?.plant.faults ?? NONE);
  if (faults.length === 0) return <p className="soft">No fault is on.</p>;
  return (
    <ul className="tool-list">
      {faults.map(({ target, fault }) => (
        <li key={target}>
          <span>
            {wordsFor(target)} <span className="soft">{fault === 'on' ? '' : HOW_WORDS[fault]}</span>
          </span>
          <button
            type="button"
            className="button"
            aria-label={`Clear ${wordsFor(target)}`}
            onClick={() =>
              give(
                { do: 'clearFault', target: isEquipment(target) ? { equipment: target } : { tag: target } },
                'Fault cleared.',
              )
            }
          >
            Clear
          </button>
        </li>
      ))}
    </ul>
  );
}

export function FaultTools({ give }: { readonly give: Give }) {
  const role = useLive((live) => live.me?.role ?? null);
  const [target, setTarget] = useState<string>(EQUIPMENT_FAULTS[0]);
  const [fault, setFault] = useState<Fault>('stuck');
  const id = useId();
  if (role === null || !mayGive(role, 'injectFault')) return null;
  const inject = () =>
    give(
      isEquipment(target)
        ? { do: 'injectFault', target: { equipment: target } }
        : {
            do: 'injectFault',
            target: { tag: target, fault, perHour: fault === 'drift' ? DRIFT_PER_HOUR : 0 },
          },
      'Fault put in.',
    );
  return (
    <section>
      <h3>Faults for training</h3>
      <p className="soft">Of the simulated plant only.</p>
      <FaultsNow give={give} />
      <div className="field">
        <label htmlFor={`${id}-t`}>What fails</label>
        <select id={`${id}-t`} value={target} onChange={(event) => setTarget(event.target.value)}>
          <optgroup label="Equipment">
            {EQUIPMENT_FAULTS.map((name) => (
              <option key={name} value={name}>
                {FAULT_WORDS[name]}
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
          <select id={`${id}-f`} value={fault} onChange={(event) => setFault(event.target.value as Fault)}>
            {FAULTS.map((name) => (
              <option key={name} value={name}>
                {name === 'drift'
                  ? `drifts by ${DRIFT_PER_HOUR} ${isTag(target) ? TAGS[target].unit : 'units'} an hour`
                  : HOW_WORDS[name]}
              </option>
            ))}
          </select>
        </div>
      )}
      <button type="button" className="button" onClick={inject}>
        Put the fault in
      </button>
    </section>
  );
}
