/** Builds one page as one HTML file that works from a disk without a server: `vite build -c … --mode viewer`. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** A page on a disk has no line to talk to: whatever would open the live socket gets a dead one. */
const noSocket = (): Plugin => ({
  name: 'no-socket',
  enforce: 'pre',
  resolveId: (source, importer) =>
    source === './socket.ts' && importer?.endsWith('/client/live/line.ts') ? here('./no-socket.ts') : null,
});

export default defineConfig(({ mode }) => {
  const page = here(`./${mode}.html`);
  if (!existsSync(page)) throw new Error(`client/standalone has no page ${mode}.html: name one with --mode`);
  return {
    root: here('.'),
    publicDir: false,
    plugins: [noSocket(), react(), viteSingleFile({ removeViteModuleLoader: true })],
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
