/** How the console is built and served while developing; the built files land in .build/client. */
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  plugins: [react()],
  build: {
    outDir: fileURLToPath(new URL('../.build/client', import.meta.url)),
    emptyOutDir: true,
    target: 'es2022',
    // A data: URI would ask the server for a wider img-src and font-src; files of our own do not.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 2000,
  },
  server: {
    port: 4441,
    strictPort: true,
    proxy: {
      '/api': 'http://127.0.0.1:4410',
      '/socket.io': { target: 'http://127.0.0.1:4410', ws: true },
    },
  },
  preview: { port: 4441, strictPort: true },
});
