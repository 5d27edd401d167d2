/** Temperatures: windows, the mix after contact, drying and cooling, and when to begin heating the tank. */
import { useId } from 'react';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { Conditions } from '../../../machines/yard/mixes/conditions.ts';
import type { TemperaturesSheet } from '../../../machines/yard/mixes/temperatures-sheet.ts';
import { plural, spokenDuration } from '../../format/format.ts';
import { type Figure, Figures } from './figures.tsx';
import { NumberField } from './number-field.tsx';
import { WindowsPicture } from './windows-picture.tsx';
import { clockWords, figure, minutesOf } from './words.ts';

const dryingRows = ({ drying, coolS, draws }: TemperaturesSheet, at: Conditions): Figure[] => {
  if (drying === null) return [];
  return [
    {
      name: 'Drying',
      value: plural(drying.charges, 'charge'),
      more: `${figure(drying.dryKg / 1000)} t dry, ${figure(drying.kwhPerDryT, 0)} kWh a tonne`,
    },
    {
      name: 'Takes',
      value: spokenDuration(drying.fireS + drying.aroundS),
      more: `of it fire ${spokenDuration(drying.fireS)}`,
    },
    { name: 'Fuel', value: `${figure(drying.fuelKg, 0)} kg` },
    {
      name: 'Then cools to be drawn',
      value: coolS === null ? 'never in this air' : spokenDuration(coolS),
      more: 'fan on, flame out and interlock proved before any cutback',
    },
    ...(draws === null
      ? []
      : [
          {
            name: 'Stays warm enough for',
            value:
              draws.endsBy === 'limit' ? 'more than 200 batches' : plural(draws.batches, 'batch', 'batches'),
            more: `of ${at.batches}; the last at ${figure(draws.tempsC.at(-1) ?? at.aggregateC, 0)} °C`,
          },
        ]),
  ];
};

export function PartTemperatures({
  content,
  temperatures,
  conditions,
  onConditions,
  onUsual,
  onChange,
}: {
  readonly content: Mix;
  readonly temperatures: TemperaturesSheet;
  readonly conditions: Conditions;
  readonly onConditions: (change: Partial<Conditions>) => void;
  readonly onUsual: () => void;
  readonly onChange: (field: string, content: Mix) => void;
}) {
  const timeId = useId();
  const { windows } = content;
  const { tank } = temperatures;
  const setWindows = (field: string, more: Partial<Mix['windows']>) =>
    onChange(field, { ...content, windows: { ...windows, ...more } });
  const degrees = (label: string, key: keyof Conditions, min = -40) => (
    <NumberField
      label={label}
      unit="°C"
      value={conditions[key]}
      min={min}
      max={180}
      onChange={(value) => onConditions({ [key]: value })}
    />
  );
  return (
    <section className="card stack" aria-labelledby="mx-temperatures">
      <h2 id="mx-temperatures">Temperatures</h2>
      <div className="mx-two mx-picture-first">
        <div className="stack">
          <WindowsPicture
            windows={temperatures.windows}
            pins={[
              { name: 'tank held at', tempC: windows.tankSetC, warn: false },
              ...(content.binder.flashC === null
                ? []
                : [{ name: 'flash point', tempC: content.binder.flashC, warn: true }]),
            ]}
          />
          <div className="mx-fields">
            <NumberField
              label="Binder, from"
              unit="°C"
              value={windows.binderC.fromC}
              min={1}
              max={200}
              onChange={(fromC) => setWindows('binderFrom', { binderC: { ...windows.binderC, fromC } })}
            />
            <NumberField
              label="Binder, to"
              unit="°C"
              value={windows.binderC.toC}
              min={1}
              max={200}
              onChange={(toC) => setWindows('binderTo', { binderC: { ...windows.binderC, toC } })}
            />
            <NumberField
              label="Tank held at"
              unit="°C"
              value={windows.tankSetC}
              min={1}
              max={200}
              onChange={(tankSetC) => setWindows('tankSet', { tankSetC })}
            />
          </div>
        </div>
        <div>
          <Figures
            rows={[
              {
                name: 'Mix once all has met',
                value: `${figure(temperatures.mixC, 1)} °C`,
                more: 'by heat balance; mixer and air take a few kelvin more',
              },
              ...dryingRows(temperatures, conditions),
              {
                name: 'Begin heating the tank',
                value: tank.startAtMin === null ? 'it never gets there' : clockWords(tank.startAtMin),
                more:
                  tank.warmS === null
                    ? ''
                    : tank.warmS === 0
                      ? 'it is warm enough'
                      : `${spokenDuration(tank.warmS)} from ${figure(conditions.tankC, 0)} °C, oil included`,
              },
            ]}
          />
        </div>
      </div>
      <details className="mx-more">
        <summary>The morning it is worked out for</summary>
        <div className="mx-fields">
          {degrees('Outside air', 'airC')}
          {degrees('Stone in the bins', 'stoneC')}
          {degrees('Aggregate as drawn', 'aggregateC')}
          {degrees('Water', 'waterC', 0)}
          {degrees('Binder as drawn', 'binderC', 0)}
          {degrees('Tank before heating', 'tankC', 0)}
          <NumberField
            label="In the tank"
            unit="kg"
            value={conditions.tankKg}
            min={50}
            max={60_000}
            onChange={(tankKg) => onConditions({ tankKg })}
          />
          <div className="field mx-number">
            <label htmlFor={timeId}>First batch at</label>
            <input
              id={timeId}
              type="time"
              className="num mx-time"
              value={clockWords(conditions.readyAtMin)}
              onChange={(event) => {
                if (/^\d\d:\d\d$/.test(event.target.value))
                  onConditions({ readyAtMin: minutesOf(event.target.value) });
              }}
            />
          </div>
          <NumberField
            label="Batches"
            unit=""
            value={conditions.batches}
            min={1}
            max={200}
            step={1}
            onChange={(batches) => onConditions({ batches: Math.round(batches) })}
          />
          <NumberField
            label="One batch every"
            unit="s"
            value={conditions.batchEveryS}
            min={30}
            max={7200}
            onChange={(batchEveryS) => onConditions({ batchEveryS })}
          />
          <NumberField
            label="Made in such a day"
            unit="t"
            value={conditions.tonnesPerDay}
            min={1}
            max={500}
            onChange={(tonnesPerDay) => onConditions({ tonnesPerDay })}
          />
        </div>
        <div className="row">
          <button type="button" className="button" onClick={onUsual}>
            As the plant stands this morning
          </button>
        </div>
      </details>
    </section>
  );
}
