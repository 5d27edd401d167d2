/** Compares two pictures pixel by pixel in a blank page of the browser that made them. */
import type { BrowserContext } from 'playwright-core';

export type Compared = {
  readonly width: number;
  readonly height: number;
  /** Pixels of which any channel differs. */
  readonly differing: number;
  /** The box around them, or null when none differs. */
  readonly box: null | {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
};

/** Both pictures are PNG; pictures of different size are a failure in themselves and throw. */
export async function comparePictures(context: BrowserContext, a: Buffer, b: Buffer): Promise<Compared> {
  const page = await context.newPage();
  try {
    return await page.evaluate(
      async ([one, other]) => {
        const pixelsOf = async (base64: string): Promise<ImageData> => {
          const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
          const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
          const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
          const context = canvas.getContext('2d');
          if (context === null) throw new Error('no canvas');
          context.drawImage(bitmap, 0, 0);
          return context.getImageData(0, 0, bitmap.width, bitmap.height);
        };
        const [x, y] = [await pixelsOf(one), await pixelsOf(other)];
        if (x.width !== y.width || x.height !== y.height)
          throw new Error(`pictures of different size: ${x.width}×${x.height} and ${y.width}×${y.height}`);
        let differing = 0;
        const box = { left: x.width, top: x.height, right: 0, bottom: 0 };
        for (let i = 0; i < x.data.length; i += 4) {
          if (x.data[i] === y.data[i] && x.data[i + 1] === y.data[i + 1] && x.data[i + 2] === y.data[i + 2])
            continue;
          differing += 1;
          const [left, top] = [(i / 4) % x.width, Math.floor(i / 4 / x.width)];
          box.left = Math.min(box.left, left);
          box.right = Math.max(box.right, left);
          box.top = Math.min(box.top, top);
          box.bottom = Math.max(box.bottom, top);
        }
        return { width: x.width, height: x.height, differing, box: differing === 0 ? null : box };
      },
      [a.toString('base64'), b.toString('base64')] as const,
    );
  } finally {
    await page.close();
  }
}
