/** Builds one page as one HTML file that works from a disk without a server: `vite build -c … --mode viewer`. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * A page on a disk has no line to talk to and no files beside it: whatever would open the live socket gets a dead
 * one, and the layout engine of the charts comes from inside the page.
 */
const allInside = (): Plugin => ({
  name: 'all-inside',
  enforce: 'pre',
  resolveId: (source, importer) => {
    if (source === './socket.ts' && importer?.endsWith('/client/live/line.ts')) return here('./no-socket.ts');
    return source === 'elkjs/lib/elk-worker.min.js?url' ? here('./elk-worker-url.ts') : null;
  },
});

export default defineConfig(({ mode }) => {
  const page = here(`./${mode}.html`);
  if (!existsSync(page)) throw new Error(`client/standalone has no page ${mode}.html: name one with --mode`);
  return {
    root: here('.'),
    publicDir: false,
    plugins: [allInside(), react(), viteSingleFile({ removeViteModuleLoader: true })],
    worker: { format: 'iife' },
    build: {
      outDir: here('../../.build/standalone'),
      emptyOutDir: false,
      target: 'es2022',
      chunkSizeWarningLimit: 8000,
      rollupOptions: { input: page },
    },
  };
});
