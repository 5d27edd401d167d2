/** What a replay is, what it proves, and its keys. */
import { Dialog } from '../parts/dialog.tsx';
import { CAUTION } from '../shell/bottom-bar.tsx';
import { REPLAY_KEYS } from './keys.ts';

export function ReplayHelp({ onClose }: { readonly onClose: () => void }) {
  return (
    <Dialog title="Help with the replay" onClose={onClose} wide>
      <div className="tools">
        <section>
          <h3>What you see</h3>
          <p>
            The same screens the operator had, drawn from the record: the recorded readings and commands are
            put to the same charts again, and every decision is compared with the recorded one. Buttons look
            as they did then; none of them does anything.
          </p>
        </section>
        <section>
          <h3>What the check says</h3>
          <p>
            Intact: nothing was changed, removed or added since the shift was sealed. Compare the fingerprint
            of the key on the check page with the one printed on the plant’s reports. The file stays on this
            computer.
          </p>
        </section>
        <section>
          <h3>Keys</h3>
          <dl className="keys">
            {REPLAY_KEYS.map(({ key, words }) => (
              <div key={key}>
                <dt>
                  {key.split(' ').map((each) => (
                    <kbd key={each}>{each}</kbd>
                  ))}
                </dt>
                <dd>{words}</dd>
              </div>
            ))}
          </dl>
        </section>
        <section>
          <h3>What this is</h3>
          <p>{CAUTION}</p>
        </section>
      </div>
    </Dialog>
  );
}
