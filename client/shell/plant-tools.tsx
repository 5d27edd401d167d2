/** Tanks to heat, bins to refill, and the stand-in operator. */
import { useId, useState } from 'react';
import { Link } from 'wouter';
import type { PlantView } from '../../machines/line/view.types.ts';
import type { Skill } from '../../machines/scenario/shift.schema.ts';
import { formatC, formatTonnes, keepUnits } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import type { Give } from './tools-dialog.tsx';
import { useBarred } from './use-barred.ts';

const NO_TANKS: PlantView['tanks'] = [];
const NO_BINS: PlantView['bins'] = [];

const HEATING_WORDS: { readonly [K in PlantView['tanks'][number]['heating']]: string } = {
  off: 'not heated',
  wanted: 'heat wanted',
  heating: 'heating',
  held: 'heating held back',
  'at set': 'at its set temperature',
};

// Written out so that the schema library stays out of the console's bundle; the type holds it to the schema.
const SKILL_WORDS: { readonly [K in Skill]: string } = {
  good: 'good: works by the book',
  slow: 'slow: late at every step',
  forgetful: 'forgetful: misses acknowledgements and looks',
  reckless: 'reckless: tries what is forbidden',
};

export function TankTools({ give, onLeave }: { readonly give: Give; readonly onLeave: () => void }) {
  const tanks = useLive((live) => live.view?.plant.tanks ?? NO_TANKS);
  const noHeat = useBarred('heatTank');
  const noReset = useBarred('resetHeater');
  return (
    <section>
      <h3>Tanks</h3>
      <ul className="tool-list">
        {tanks.map((tank) => (
          <li key={tank.id}>
            <span>
              <strong>{tank.id === 'emulsion' ? 'Emulsion' : 'Cutback'}</strong> {tank.grade}
              <span className="soft num">
                {' '}
                · {keepUnits(`${formatTonnes(tank.massKg)} · set ${formatC(tank.setC)}`)} ·{' '}
                {HEATING_WORDS[tank.heating]}
              </span>
            </span>
            <button
              type="button"
              className="button"
              data-barred={noHeat}
              aria-label={`${tank.heating === 'off' ? 'Heat' : 'Stop heating'} the ${tank.id} tank`}
              onClick={() =>
                give(
                  { do: 'heatTank', tank: tank.id, on: tank.heating === 'off' },
                  tank.heating === 'off' ? 'Heating asked for.' : 'Heating switched off.',
                )
              }
            >
              {tank.heating === 'off' ? 'Heat' : 'Stop heating'}
            </button>
          </li>
        ))}
      </ul>
      <button
        type="button"
        className="button"
        data-barred={noReset}
        onClick={() => give({ do: 'resetHeater' }, 'Heater reset.')}
      >
        Reset the oil heater
      </button>
      <p className="tool-more">
        <Link href="/interlock/tanks" onClick={onLeave}>
          Deliveries and what is in the tanks
        </Link>
      </p>
    </section>
  );
}

export function BinTools({ give }: { readonly give: Give }) {
  const bins = useLive((live) => live.view?.plant.bins ?? NO_BINS);
  const noRefill = useBarred('refillBin');
  return (
    <section>
      <h3>Cold bins</h3>
      <ul className="tool-list">
        {bins.map((bin, i) => (
          <li key={bin.name}>
            <span>
              <strong>{bin.name}</strong> {bin.size}
              <span className="soft num"> · {Math.round(bin.levelPct)} % full</span>
            </span>
            <button
              type="button"
              className="button"
              data-barred={noRefill}
              aria-label={`Refill ${bin.name}`}
              onClick={() => give({ do: 'refillBin', bin: i + 1 }, `${bin.name}: refill asked for.`)}
            >
              Refill
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function StandInTool({ give }: { readonly give: Give }) {
  const standIn = useLive((live) => live.view?.seat.standIn ?? null);
  const [skill, setSkill] = useState<Skill>(standIn ?? 'good');
  const id = useId();
  const no = useBarred('standIn');
  return (
    <section>
      <h3>Stand-in operator</h3>
      <p className="soft">A simulated person who takes the controls and runs the shift alone.</p>
      <div className="field">
        <label htmlFor={id}>Skill</label>
        <select id={id} value={skill} onChange={(event) => setSkill(event.target.value as Skill)}>
          {Object.entries(SKILL_WORDS).map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </div>
      <div className="row">
        <button
          type="button"
          className="button primary"
          data-barred={no}
          onClick={() => give({ do: 'standIn', skill }, `A ${skill} stand-in runs the line.`)}
        >
          {standIn === null ? 'Switch on' : 'Change skill'}
        </button>
        {standIn !== null && (
          <button
            type="button"
            className="button"
            data-barred={no}
            onClick={() => give({ do: 'standIn', skill: null }, 'Stand-in switched off.')}
          >
            Switch off ({standIn} now)
          </button>
        )}
      </div>
    </section>
  );
}
