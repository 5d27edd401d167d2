/** A photograph from the bench: chosen or taken, looked at, sent, and only then put to the worksheet. */
import { type ChangeEvent, useId, useState } from 'react';
import { say } from '../../live/said.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { Preview } from './preview.tsx';
import { type Photo, sendPhoto, sizeWords, whyNotSend } from './send-photo.ts';
import './photos.css';

export function AttachPhoto({
  label = 'Photograph',
  onSent,
}: {
  readonly label?: string;
  /** Puts the kept photograph where it belongs; reasons when that was refused, null when done. */
  readonly onSent: (photo: Photo, words: string) => Promise<readonly string[] | null>;
}) {
  const id = useId();
  const [file, setFile] = useState<File | null>(null);
  const [words, setWords] = useState('');
  const [share, setShare] = useState<number | null>(null);
  const [refusal, setRefusal] = useState<readonly string[] | null>(null);

  const choose = (event: ChangeEvent<HTMLInputElement>) => {
    const chosen = event.target.files?.[0] ?? null;
    event.target.value = '';
    if (chosen === null) return;
    const why = whyNotSend(chosen);
    setRefusal(why === null ? null : [why]);
    setFile(why === null ? chosen : null);
  };
  const send = async () => {
    if (file === null) return;
    setShare(0);
    setRefusal(null);
    const sent = await sendPhoto(file, setShare);
    const because = sent.ok ? await onSent(sent.photo, words.trim()) : sent.because;
    setShare(null);
    if (because !== null) {
      setRefusal(because);
      return;
    }
    setFile(null);
    setWords('');
    say('Photograph attached.');
  };

  return (
    <div className="attach-photo">
      <label className="button attach-choose" htmlFor={id}>
        {label}: {file === null ? 'take or choose' : 'take another'}
        <input
          id={id}
          type="file"
          accept="image/jpeg,image/png"
          capture="environment"
          className="hidden-words"
          onChange={choose}
        />
      </label>
      {file === null && (
        <span className="soft-line">JPEG or PNG, at most 8 MB; place and camera data are removed.</span>
      )}
      {file !== null && (
        <div className="attach-look">
          <Preview file={file} />
          <div className="stack">
            <span className="num">
              {file.name}, {sizeWords(file.size)}
            </span>
            <div className="field">
              <label htmlFor={`${id}-w`}>What it shows</label>
              <input
                id={`${id}-w`}
                type="text"
                maxLength={200}
                value={words}
                onChange={(event) => setWords(event.target.value)}
              />
            </div>
            {share !== null && (
              <progress max={1} value={share} aria-label="How far the photograph has got">
                {Math.round(share * 100)} %
              </progress>
            )}
            <div className="row">
              <button
                type="button"
                className="button primary"
                aria-busy={share !== null}
                onClick={() => share === null && void send()}
              >
                {share === null ? 'Attach it' : `Sending, ${Math.round(share * 100)} %`}
              </button>
              <button type="button" className="button" onClick={() => setFile(null)}>
                Leave it
              </button>
            </div>
          </div>
        </div>
      )}
      <Refusal because={refusal} onClose={() => setRefusal(null)} />
    </div>
  );
}
