/** The time that counts, large enough to read at three metres. */
import { FAR_S, formatCountdown, percent, share01, spokenDuration } from '../format/format.ts';
import { useLive } from '../live/store.ts';

/** Width of a bold digit in the widest font of the stack, of its size. */
const WIDEST_DIGIT_EM = 0.66;

export function Countdown() {
  const countdown = useLive((live) => live.view?.now.countdown ?? null);
  if (countdown === null || (countdown.way === 'forecast' && countdown.seconds > FAR_S)) return null;
  const { way, seconds, ofSeconds, label } = countdown;
  const text = way === 'up' ? formatCountdown(Math.floor(seconds)) : formatCountdown(seconds);
  const chars = text.length + (way === 'forecast' ? 0.8 : 0);
  const done = way === 'up' ? share01(seconds, ofSeconds) : share01(ofSeconds - seconds, ofSeconds);
  return (
    <div className="countdown">
      <p className="countdown-time num">
        <span
          aria-hidden="true"
          style={{ fontSize: `min(104px, ${(100 / (WIDEST_DIGIT_EM * chars)).toFixed(2)}cqw)` }}
        >
          {way === 'forecast' ? <span className="about">≈</span> : null}
          {text}
        </span>
        <span className="hidden-words">
          {way === 'forecast' ? 'about ' : ''}
          {spokenDuration(seconds)}
        </span>
      </p>
      <p className="soft">{label}</p>
      {ofSeconds > 0 && (
        <div className="bar" aria-hidden="true">
          <i style={{ width: percent(done) }} />
        </div>
      )}
    </div>
  );
}
