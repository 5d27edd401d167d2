/** What to make this week, mix by mix, and what that rests on. */
import type { MixForecast } from '../../../machines/yard/patches/forecast.ts';
import { plural } from '../../format/format.ts';
import { Mark } from '../../parts/mark.tsx';
import { Scroll } from '../patches/scroll.tsx';
import { dayWords, mass } from '../patches/words.ts';

const some = (kg: number): string => (kg === 0 ? '–' : mass(kg));

const lasts = ({ lastsDays }: MixForecast): string => {
  if (lastsDays === null) return '–';
  return lastsDays > 60 ? 'over 60 days' : `${lastsDays.toFixed(lastsDays < 10 ? 1 : 0)} days`;
};

export function Forecast({
  forecast,
  at,
}: {
  readonly forecast: readonly MixForecast[];
  readonly at: string;
}) {
  return (
    <section className="card stack" aria-labelledby="ys-forecast">
      <div className="yp-head">
        <h2 id="ys-forecast">What to make this week</h2>
        <span className="soft">as of {dayWords(at)}</span>
      </div>
      {forecast.length === 0 ? (
        <p className="soft yp-empty">No mix is in force: approve a version under Mixes.</p>
      ) : (
        <Scroll label="Forecast by mix">
          <table className="yp-table">
            <thead>
              <tr>
                <th scope="col">Mix</th>
                <th scope="col" className="num">
                  Make
                </th>
                <th scope="col" className="num">
                  Ordered, to make
                </th>
                <th scope="col" className="num">
                  Needed in 7 days
                </th>
                <th scope="col" className="num">
                  Released
                </th>
                <th scope="col" className="num">
                  Waiting for the lab
                </th>
                <th scope="col" className="num">
                  Free
                </th>
                <th scope="col" className="num">
                  Use a day
                </th>
                <th scope="col" className="num">
                  Free lasts
                </th>
              </tr>
            </thead>
            <tbody>
              {forecast.map((one) => (
                <tr key={one.mix}>
                  <th scope="row">
                    {one.name}
                    <span className="soft yp-under">{one.family}</span>
                  </th>
                  <td className="num">
                    <strong>{one.makeKg === 0 ? 'nothing' : mass(one.makeKg)}</strong>
                    {one.makeKg > 0 && (
                      <span className="soft yp-under">
                        {plural(Math.round(one.makeKg / one.batchKg), 'batch', 'batches')}
                      </span>
                    )}
                  </td>
                  <td className="num">{some(one.orderedKg)}</td>
                  <td className="num">{some(one.thisWeekKg)}</td>
                  <td className="num">
                    {some(one.releasedKg)}
                    {one.barredKg > 0 && (
                      <span className="yp-under warn-words">
                        <Mark shape="triangle" /> {mass(one.barredKg)} on hold or rejected
                      </span>
                    )}
                  </td>
                  <td className="num">{some(one.waitingKg)}</td>
                  <td className="num">{some(one.freeKg)}</td>
                  <td className="num">{some(one.useKgDay)}</td>
                  <td className="num">{lasts(one)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
      <p className="soft">
        Make = what orders need within seven days, and what a week's use goes beyond orders and free stock.
        Use is the mean of what was laid in holes over the last 28 days. Free is mix no order has a claim to.
      </p>
    </section>
  );
}
