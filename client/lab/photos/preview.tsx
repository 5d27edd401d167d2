/** A chosen photograph drawn small. On a canvas, because the page's rules let no picture in that did not come from the server. */
import { useEffect, useRef, useState } from 'react';

const SIDE = 180;

export function Preview({ file }: { readonly file: Blob }) {
  const ref = useRef<HTMLCanvasElement>(null);
  const [unreadable, setUnreadable] = useState(false);
  useEffect(() => {
    let gone = false;
    setUnreadable(false);
    createImageBitmap(file).then(
      (picture) => {
        const canvas = ref.current;
        if (gone || canvas === null) return;
        const scale = SIDE / Math.max(picture.width, picture.height);
        canvas.width = Math.max(1, Math.round(picture.width * scale));
        canvas.height = Math.max(1, Math.round(picture.height * scale));
        canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
        picture.close();
      },
      () => !gone && setUnreadable(true),
    );
    return () => {
      gone = true;
    };
  }, [file]);
  if (unreadable) return <p className="warn-words">This file cannot be drawn: it may not be a picture.</p>;
  return (
    <canvas
      ref={ref}
      className="attach-preview"
      role="img"
      aria-label="The photograph about to be attached"
    />
  );
}
