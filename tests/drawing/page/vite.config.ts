/** Serves the drawing parts by themselves for looking at them; no part of the product build. */

import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  server: { port: 4451, strictPort: true, host: '127.0.0.1' },
  preview: { port: 4451, strictPort: true, host: '127.0.0.1' },
  build: { outDir: '../../../.build/drawing-page', emptyOutDir: true },
});
