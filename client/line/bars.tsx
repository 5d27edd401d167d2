/** Weights against their targets and temperatures against their windows, as small bars that all read alike. */
import { memo } from 'react';
import type { TempView, WeightView } from '../../machines/line/view.types.ts';
import { FAR_S, formatC, formatKg, formatWindow, percent, spokenDuration } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark, STANDING_SHAPE, STANDING_WORDS } from '../parts/mark.tsx';
import { countsNow, matters, tempScale, weightScale } from './scale.ts';

const NO_WEIGHTS: readonly WeightView[] = [];
const NO_TEMPS: readonly TempView[] = [];

const Weight = memo(function Weight({ weight }: { readonly weight: WeightView }) {
  const scale = weightScale(weight);
  const target = weight.targetKg === null ? '' : `of ${formatKg(weight.targetKg)} kg`;
  return (
    <li className={`gauge weight ${weight.standing}`}>
      <span className="gauge-label">{weight.label}</span>
      <span className="bar gauge-bar" aria-hidden="true">
        <i style={{ width: percent(scale.value) }} />
        {scale.band !== null && (
          <span
            className="gauge-band"
            style={{ left: percent(scale.band.from), width: percent(scale.band.to - scale.band.from) }}
          />
        )}
        {scale.target !== null && <span className="gauge-tick" style={{ left: percent(scale.target) }} />}
      </span>
      <span className="gauge-value num">
        {weight.standing !== 'met' && <Mark shape={STANDING_SHAPE[weight.standing]} />}
        {formatKg(weight.valueKg)} kg
      </span>
      <span className="gauge-text">
        {[target, weight.text].filter(Boolean).join(' · ')}
        <span className="hidden-words">, {STANDING_WORDS[weight.standing]}</span>
      </span>
    </li>
  );
});

function forecast(temp: TempView): string {
  if (temp.untilInS !== null) return `in ${spokenDuration(temp.untilInS)}`;
  if (temp.untilOutS !== null && temp.untilOutS < FAR_S) return `for ${spokenDuration(temp.untilOutS)}`;
  return '';
}

const Temp = memo(function Temp({ temp }: { readonly temp: TempView }) {
  const scale = tempScale(temp);
  const window = formatWindow(temp.fromC, temp.toC);
  const more = forecast(temp);
  return (
    <li className={`gauge temp ${temp.standing}`}>
      <span className="gauge-label">{temp.label}</span>
      <span className="bar gauge-bar temp" aria-hidden="true">
        {scale.band !== null && (
          <span
            className="gauge-band"
            style={{ left: percent(scale.band.from), width: percent(scale.band.to - scale.band.from) }}
          />
        )}
        <span className="gauge-needle" style={{ left: percent(scale.value) }} />
      </span>
      <span className="gauge-value num">
        {temp.standing !== 'met' && <Mark shape={STANDING_SHAPE[temp.standing]} />}
        {formatC(temp.valueC)}
      </span>
      <span className="gauge-text">
        {window}
        {more !== '' && `${window === '' ? '' : ' · '}${more}`}
        <span className="hidden-words">, {STANDING_WORDS[temp.standing]}</span>
      </span>
    </li>
  );
});

export function Bars() {
  const weights = useLive((live) => live.view?.weights ?? NO_WEIGHTS);
  const temps = useLive((live) => live.view?.temps ?? NO_TEMPS);
  return (
    <section className="card bars" aria-labelledby="bars-label" data-guide="bars">
      <h2 className="hidden-words" id="bars-label">
        Weights and temperatures
      </h2>
      {weights.length + temps.length > 0 && !weights.some(countsNow) && !temps.some(matters) && (
        <p className="soft">Nothing is weighed or warmed just now.</p>
      )}
      <ul className="gauges">
        {weights.filter(countsNow).map((weight) => (
          <Weight key={weight.id} weight={weight} />
        ))}
        {temps.filter(matters).map((temp) => (
          <Temp key={temp.id} temp={temp} />
        ))}
      </ul>
    </section>
  );
}
