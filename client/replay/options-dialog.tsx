/** How a replay is shown: with or without hindsight, and whose console it looks like. */
import { Dialog } from '../parts/dialog.tsx';
import { Mark } from '../parts/mark.tsx';
import { useReplay, useReplayClient } from './context.ts';

export function OptionsDialog({ onClose }: { readonly onClose: () => void }) {
  const replay = useReplayClient();
  const hindsight = useReplay((state) => state.hindsight);
  const seenBy = useReplay((state) => state.seenBy);
  return (
    <Dialog title="How it is shown" onClose={onClose}>
      <div className="stack">
        <div className="stack">
          <label className="check">
            <input
              type="checkbox"
              className="hidden-words"
              checked={!hindsight}
              onChange={(event) => replay.setHindsight(!event.target.checked)}
            />
            <span className="box">
              <Mark shape="check" />
            </span>
            Without hindsight: the ribbon ends at the moment shown
          </label>
          <p className="soft">
            Then the ribbon is the operator’s own and does not move the replay; buttons and keys still do.
          </p>
        </div>
        <div className="field">
          <label htmlFor="replay-seen-by">Buttons as they were for</label>
          <select
            id="replay-seen-by"
            value={seenBy}
            onChange={(event) => replay.setSeenBy(event.target.value === 'onlooker' ? 'onlooker' : 'holder')}
          >
            <option value="holder">who had the controls</option>
            <option value="onlooker">somebody who looked on</option>
          </select>
        </div>
      </div>
    </Dialog>
  );
}
